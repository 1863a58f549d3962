import type { Look, Step } from '../state/document.ts';

export const stepWords: Readonly<Record<Step, string>> = {
  bringIn: 'Bring in',
  face: 'Face',
  fit: 'Fit',
  compare: 'Compare',
  finding: 'Finding',
  read: 'Read',
  show: 'Show',
};
export const numerals = ['i', 'ii', 'iii', 'iv', 'v', 'vi', 'vii'] as const;

export const lookWords: Readonly<Record<Look, string>> = {
  pair: 'side by side',
  over: 'one over the other',
  turn: 'in turn',
  difference: 'as differences',
};
