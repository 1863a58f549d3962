import type { Look, Step } from '../state/document.ts';

export const stepWords: Readonly<Record<Step, string>> = {
  bringIn: 'Bring in',
  face: 'Face',
  fit: 'Fit',
  compare: 'Compare',
  finding: 'Finding',
  show: 'Show',
};
export const numerals = ['i', 'ii', 'iii', 'iv', 'v', 'vi'] as const;

export const lookWords: Readonly<Record<Look, string>> = {
  pair: 'side by side',
  over: 'one over the other',
  turn: 'in turn',
  difference: 'as differences',
};
