import type { Verb } from '../verb.ts';
export const samples: Verb = { name: 'samples', usage: '', does: '', options: [], async run() {} };
