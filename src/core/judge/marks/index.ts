export { type FoundMark, findMarks, markDefaults, placeOf } from './findMarks.ts';
