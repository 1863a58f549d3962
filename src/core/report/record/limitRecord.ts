import type { Limit } from '../../judge/index.ts';
import { limitWords } from '../words/limits.ts';
import { rounded } from './rounded.ts';

/** A limit as plain JSON: its code, its numbers to 6 decimals, and its sentence. */
export function limitRecord(limit: Limit): { code: string; words: string; [field: string]: unknown } {
  const { code, ...fields } = limit;
  const plain = Object.entries(fields).map(([name, value]) => [
    name,
    typeof value === 'number' ? rounded(value, 6) : value,
  ]);
  return { code, ...Object.fromEntries(plain), words: limitWords(limit) };
}
