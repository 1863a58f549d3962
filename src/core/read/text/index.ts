export * from './abbreviations.ts';
export * from './leiden.ts';
export * from './readings.ts';
export { isLetterText } from './reserved.ts';
export * from './signs.ts';
export { defaultHeader, fromTei, type TeiHeader, teiOfItems, toTei } from './tei.ts';
export * from './transcription.ts';
export * from './validate.ts';
export * from './xmlText.ts';
