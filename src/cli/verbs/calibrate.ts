import type { Verb } from '../verb.ts';
export const calibrate: Verb = { name: 'calibrate', usage: '', does: '', options: [], async run() {} };
