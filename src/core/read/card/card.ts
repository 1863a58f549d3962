import { z } from 'zod';
import { units } from '../../scan/index.ts';
import { transcriptionSchema, validateTranscription } from '../text/index.ts';

/** A catalogue card: what is known of one seal, and how. Lengths in mm; free text in the cataloguer's language. */

const words = z.string().trim().min(1);
const size = z.strictObject({ heightMm: z.number().positive(), widthMm: z.number().positive() });

export const attachments = ['applied', 'tongue', 'tag', 'cords', 'detached', 'notAttached', 'notStated'] as const;
export const attachmentWords = {
  applied: 'applied to the document',
  tongue: 'on a tongue cut from the document',
  tag: 'on a tag',
  cords: 'on cords',
  detached: 'detached from its document',
  notAttached: 'not attached to a document',
  notStated: 'whether attached to a document not stated',
} as const satisfies Record<(typeof attachments)[number], string>;

export const cardShapes = ['round', 'oval', 'pointedOval', 'shield', 'square', 'irregular'] as const;
export const shapeWords = {
  round: 'round',
  oval: 'oval',
  pointedOval: 'pointed oval',
  shield: 'shield-shaped',
  square: 'square',
  irregular: 'irregular',
} as const satisfies Record<(typeof cardShapes)[number], string>;

export const objectClasses = ['matrix', 'mould', 'impression', 'cast'] as const;

const date = z.strictObject({
  /** Years, before 1 as zero or negative; either may be left out. */
  notBefore: z.number().int().optional(),
  notAfter: z.number().int().optional(),
  /** As it is to be printed: "1247 x 1251", "late 13th century". */
  words,
  basis: z.enum(['document', 'office', 'style', 'matrix', 'other']),
  basisWords: words.optional(),
});
export const dateBasisWords = {
  document: 'date of the document',
  office: 'years in office of the owner',
  style: 'style',
  matrix: 'dated matrix or dated use of it',
  other: 'other grounds',
} as const satisfies Record<z.output<typeof date>['basis'], string>;

/** From the matrix to this object, oldest first: what each was and of what. */
const link = z.strictObject({ object: z.enum(objectClasses), material: words });

const scan = z.strictObject({
  file: words,
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  unit: z.enum(units),
  unitFrom: z.enum(['stated', 'file', 'assumed']),
  instrument: words.optional(),
  operator: words.optional(),
  /** ISO 8601 date. */
  date: z
    .string()
    .regex(/^\d{4}(-\d{2}(-\d{2})?)?$/)
    .optional(),
  pointSpacingMm: z.number().positive().optional(),
  processing: words.optional(),
});

export const cardSchema = z.strictObject({
  schema: z.literal('ectype/card/1'),
  repository: words.optional(),
  shelfmark: words,
  /** Seal n of m on its document. */
  seal: z.strictObject({ number: z.number().int().positive(), of: z.number().int().positive() }).optional(),
  attachment: z.enum(attachments),
  object: z.strictObject({
    class: z.enum(objectClasses),
    /** Copying steps from the matrix: matrix 0, impression 1, mould of it 2, cast from that 3; null where not known. */
    generation: z.number().int().min(0).nullable(),
    chain: z.array(link),
  }),
  owner: words.optional(),
  colour: words.optional(),
  shape: z.enum(cardShapes),
  face: size,
  cake: size.optional(),
  /** What the sizes were taken from. */
  measured: words,
  motif: words.optional(),
  legend: transcriptionSchema.optional(),
  back: words.optional(),
  /** Ridges of fingers on the back: recorded as seen or not, never more. */
  fingerMarks: z.enum(['present', 'absent', 'notJudged']),
  condition: words.optional(),
  repairs: words.optional(),
  earlierMoulding: words.optional(),
  date: date.optional(),
  scan: scan.optional(),
  describedBy: words.optional(),
  rights: words.optional(),
});

export type Card = z.output<typeof cardSchema>;

/** What is wrong with a card, each with its field; empty when nothing is. */
export function validateCard(input: unknown): { readonly field: string; readonly words: string }[] {
  const parsed = cardSchema.safeParse(input);
  if (!parsed.success)
    return parsed.error.issues.map(({ path, message }) => ({ field: path.join('.') || 'card', words: message }));
  return [...faults(parsed.data)];
}

function* faults(card: Card): Generator<{ field: string; words: string }> {
  if (card.seal && card.seal.number > card.seal.of)
    yield { field: 'seal', words: `Seal ${card.seal.number} of ${card.seal.of} cannot be.` };
  const { class: kind, chain, generation } = card.object;
  const last = chain[chain.length - 1];
  if (last && last.object !== kind)
    yield { field: 'object.chain', words: `The chain ends with a ${last.object}, but the object is a ${kind}.` };
  if (chain[0]?.object === 'matrix' && generation !== null && generation !== chain.length - 1)
    yield {
      field: 'object.generation',
      words: `The chain has ${chain.length - 1} steps from the matrix, the card says ${generation}.`,
    };
  if (kind === 'matrix' && card.attachment !== 'notAttached')
    yield { field: 'attachment', words: 'A matrix is not attached to a document.' };
  const { notBefore, notAfter } = card.date ?? {};
  if (notBefore !== undefined && notAfter !== undefined && notBefore > notAfter)
    yield { field: 'date', words: 'The earliest year comes after the latest.' };
  if (card.cake && (card.cake.heightMm < card.face.heightMm || card.cake.widthMm < card.face.widthMm))
    yield { field: 'cake', words: 'The cake cannot be smaller than the face on it.' };
  for (const issue of card.legend ? validateTranscription(card.legend) : [])
    yield { field: `legend.items.${issue.index}`, words: issue.words };
}

/** Reads a card from parsed JSON. Throws RangeError with the first fault. */
export function parseCard(input: unknown): Card {
  const [first] = validateCard(input);
  if (first) throw new RangeError(`The card is not valid at ${first.field}: ${first.words}`);
  return cardSchema.parse(input);
}
