export { liesOn, measureChange } from './change.ts';
export { changeFigures } from './figures.ts';
export { type CheckedScan, type ScanRequirement, scanCheck } from './scanCheck.ts';
export * from './types.ts';
