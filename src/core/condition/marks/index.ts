export { cellOutlines, cellsOfMark } from './cellOutline.ts';
export { type FoundMark, findMarks, markDefaults, placeOf } from './findMarks.ts';
