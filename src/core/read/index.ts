export * from './filters/index.ts';
export * from './light/index.ts';
