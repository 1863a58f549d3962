export * from './card.ts';
export * from './cardFields.ts';
export * from './cardLinked.ts';
export * from './cardRows.ts';
export * from './cardTei.ts';
export * from './manifest.ts';
export * from './terms.ts';
export { type CardLanguage, cardLanguages, cardWords } from './words/index.ts';
