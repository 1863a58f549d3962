export { cellOutlines, cellsOfMark } from './cellOutline.ts';
export { findMarks } from './findMarks.ts';
export { type FoundMark, placeOf } from './foundMark.ts';
export { marksWithin } from './marksWithin.ts';
