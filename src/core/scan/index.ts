export * from './error.ts';
export * from './types.ts';
