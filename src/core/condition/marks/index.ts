export { cellOutlines, cellsOfMark } from './cellOutline.ts';
export { type FoundMark, findMarks, placeOf } from './findMarks.ts';
