export * from './light/index.ts';
