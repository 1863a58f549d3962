export * from './error.ts';
export { type ReadExtras, readScan } from './readScan.ts';
export { sha256 } from './sha256.ts';
export * from './types.ts';
export * from './units.ts';
export { type PlyFloatProperty, writePly } from './writePly.ts';
