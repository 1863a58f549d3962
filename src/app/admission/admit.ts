import * as z from 'zod';
import { hasMoreValues, uncapital } from '../../core/scan/index.ts';

// The page's policy forbids code made from text, which the schemas would otherwise try.
z.config({ jitless: true });

/** What was not let in, and why, in one sentence: the only error that the admission of saved work throws. */
export class Refusal extends Error {
  override name = 'Refusal';
}

/** Values that one saved thing may hold in all: a hundred times what a seminar of an hour has. */
const mostValues = 400_000;
const deepest = 40;

/**
 * The value in the type that the schema describes, or a Refusal that says in one sentence what of it is wrong. Counts come
 * before shapes: however large the value is, it is refused within a fraction of a second. `what` begins the sentence.
 */
export function admit<T>(schema: z.ZodType<T>, value: unknown, what: string): T {
  withinBudget(value, what);
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  const { path, message } = result.error.issues[0];
  const place = path.length > 0 ? `${shortText(path.join('.'))}: ` : '';
  throw new Refusal(`${what} is damaged (${place}${shortText(uncapital(message))}) and was not opened.`);
}

/** Refuses what is too much, before anybody looks at what it is. */
export function withinBudget(value: unknown, what: string): void {
  const much = tooMuch(value);
  if (much) throw new Refusal(`${what} ${much} and was not opened.`);
}

/** Why there is too much of it, or null. Nothing is called by itself again, so that no depth breaks it. */
function tooMuch(value: unknown): string | null {
  const waiting: [unknown, number][] = [[value, 0]];
  let seen = 0;
  for (let one = waiting.pop(); one; one = waiting.pop()) {
    const [here, depth] = one;
    if (here === null || typeof here !== 'object') continue;
    if (depth > deepest) return `is nested more than ${deepest} deep`;
    const inside = Array.isArray(here) ? here : Object.values(here);
    seen += inside.length;
    if (seen > mostValues) return `holds more than ${mostValues} values`;
    for (const each of inside) waiting.push([each, depth + 1]);
  }
  return null;
}

/** What came from outside, short and without control characters, for a sentence. */
export function shortText(text: string, most = 80): string {
  const clean = text.replace(/[\p{Cc}\p{Cf}\p{Cs}]+/gu, ' ').trim();
  return clean.length > most ? `${clean.slice(0, most)}…` : clean;
}

/**
 * Refuses JSON of too many values before it is parsed: objects without end take seconds of a page that cannot answer. A value
 * comes with a comma or the bracket before it, and may open one of its own: twice as many are surely too much.
 */
export function textWithinBudget(json: Uint8Array, what: string): void {
  if (hasMoreValues(json, 2 * mostValues + 2))
    throw new Refusal(`${what} holds more than ${mostValues} values and was not opened.`);
}

/** Parsed JSON, or a Refusal. */
export function parsedJson(json: Uint8Array, what: string): unknown {
  textWithinBudget(json, what);
  try {
    return JSON.parse(new TextDecoder().decode(json));
  } catch {
    throw new Refusal(`${what} is damaged (its text is no JSON) and was not opened.`);
  }
}
