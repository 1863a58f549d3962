export * from './card.ts';
export * from './cardLinked.ts';
export * from './cardRows.ts';
export * from './cardTei.ts';
