export * from './types.ts';
export { compareFaces } from './interim.ts';
