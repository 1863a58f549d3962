import type { Verb } from '../verb.ts';
export const strip: Verb = { name: 'strip', usage: '', does: '', options: [], async run() {} };
