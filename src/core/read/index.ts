export * from './card/index.ts';
export * from './filters/index.ts';
export * from './fragments/index.ts';
export * from './light/index.ts';
export * from './picture.ts';
export * from './strip/index.ts';
export * from './text/index.ts';
export * from './waxBack.ts';
