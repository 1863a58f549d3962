export { measureChange } from './change.ts';
export { changeFigures } from './figures.ts';
export * from './types.ts';
