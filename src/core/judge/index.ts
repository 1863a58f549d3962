export { calibrationName, judge } from './judge.ts';
export { thisOrCopy } from './question.ts';
export * from './types.ts';
