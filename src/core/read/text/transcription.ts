import * as z from 'zod';
import { signNames } from './signs.ts';

/**
 * A transcription: what stands on a legend, in reading order, each letter with its state. One flat list, so that it can be
 * typed straight along the strip; words are what lies between spaces, signs and line breaks.
 */

/** How sure a letter is. One of these, never two: a doubtful letter is seen, a supplied one is not. */
export const letterStates = ['clear', 'doubtful', 'supplied', 'omitted', 'superfluous'] as const;
export type LetterState = (typeof letterStates)[number];

/** Where a supplied letter comes from: a named witness, or conjecture (and whose). Ids point into `sources`. */
const suppliedFrom = z.discriminatedUnion('from', [
  z.strictObject({ from: z.literal('witness'), id: z.string().min(1) }),
  z.strictObject({ from: z.literal('conjecture'), id: z.string().min(1).optional() }),
]);

/** No legend is longer, twenty rings of it: what a file says beyond that is not read, and two readings can always be compared. */
const most = { items: 2000, gap: 500 } as const;

/** Where on the strip it stands: mm along the band from the strip's start, to 0.01 mm. */
const place = z.number().finite().optional();

const letter = z.strictObject({
  kind: z.literal('letter'),
  text: z.string().min(1),
  state: z.enum(letterStates),
  source: suppliedFrom.optional(),
  /** In one with the next letter (ligature). */
  joined: z.literal(true).optional(),
  /** Cut the wrong way round by the engraver. */
  reversed: z.literal(true).optional(),
  alongMm: place,
});

const sign = z.strictObject({
  kind: z.literal('sign'),
  name: z.enum(signNames),
  state: z.enum(['clear', 'doubtful', 'supplied']),
  source: suppliedFrom.optional(),
  alongMm: place,
});

/** Letters that cannot be given: lost with the surface, or traces that cannot be read. */
const gap = z.strictObject({
  kind: z.literal('gap'),
  reason: z.enum(['lost', 'illegible']),
  /** Number of letters; null where it cannot be told. */
  quantity: z.number().int().positive().max(most.gap).nullable(),
  /** The number is an estimate. */
  about: z.literal(true).optional(),
  alongMm: place,
});

/** What the letters before it in the word stand for and do not write; null: an abbreviation left unsolved. */
const expansion = z.strictObject({ kind: z.literal('expansion'), text: z.string().min(1).nullable() });

/** A mark that shows abbreviation: the apostrophe or stroke of S'. */
const mark = z.strictObject({ kind: z.literal('mark'), text: z.enum(["'", '¯']), alongMm: place });

const space = z.strictObject({ kind: z.literal('space') });

/** The legend goes on in another ring or line. */
const line = z.strictObject({ kind: z.literal('line') });

export const itemSchema = z.discriminatedUnion('kind', [letter, sign, gap, expansion, mark, space, line]);
export type Item = z.output<typeof itemSchema>;
export type Letter = z.output<typeof letter>;
export type Sign = z.output<typeof sign>;
export type Gap = z.output<typeof gap>;
export type SuppliedFrom = z.output<typeof suppliedFrom>;

/** Text that any file format can carry: no control characters but line breaks. */
const printable = z.string().regex(/^[^\p{Cc}\p{Cs}\ufffe\uffff]*(\n[^\p{Cc}\p{Cs}\ufffe\uffff]*)*$/u);

/** BCP 47, such as la, en, fro. */
const language = z.string().regex(/^[a-z]{2,3}(-[A-Za-z0-9]+)*$/);

/** A witness (another impression, a cast, an earlier reading) or a person who conjectured. */
const source = z.strictObject({
  /** Short name, used as xml:id: a letter, then letters, digits, hyphens. */
  id: z.string().regex(/^[A-Za-z][A-Za-z0-9-]*$/),
  kind: z.enum(['witness', 'person']),
  name: printable.min(1),
});
export type Source = z.output<typeof source>;

export const transcriptionSchema = z.strictObject({
  language,
  items: z.array(itemSchema).max(most.items),
  sources: z.array(source),
  translation: z.strictObject({ language, text: printable }).optional(),
});
export type Transcription = z.output<typeof transcriptionSchema>;

export const emptyTranscription: Transcription = { language: 'la', items: [], sources: [] };

/** Ends a word: letters on its two sides belong to different words. */
export const endsWord = (item: Item): boolean => item.kind === 'space' || item.kind === 'sign' || item.kind === 'line';
