import type { Look, Room, Step } from '../state/document.ts';

export const stepWords: Readonly<Record<Step, string>> = {
  bringIn: 'Bring in',
  face: 'Face',
  fit: 'Fit',
  compare: 'Compare',
  finding: 'Finding',
  read: 'Read',
  show: 'Show',
  change: 'Two dates',
};
export const roomWords: Readonly<Record<Room, string>> = { ...stepWords, door: 'What do you want to know?' };
export const numerals = ['i', 'ii', 'iii', 'iv', 'v', 'vi', 'vii'] as const;

export const lookWords: Readonly<Record<Look, string>> = {
  pair: 'side by side',
  over: 'one over the other',
  turn: 'in turn',
  difference: 'as differences',
};
