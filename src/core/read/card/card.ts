import { z } from 'zod';
import { units } from '../../scan/index.ts';
import { transcriptionSchema, validateTranscription } from '../text/index.ts';
import {
  attachments,
  cardShapes,
  castMaterials,
  coverings,
  dateBases,
  imageSizeSources,
  objectClasses,
  objectTypes,
  protections,
  relations,
  sideNames,
  statuses,
} from './terms.ts';

/**
 * A catalogue card: what is known of one seal, and how. Lengths in mm; free text in the cataloguer's language. What nobody
 * stated is "unknown" or left out: nothing is claimed by default.
 */

const words = z.string().trim().min(1);
const size = z.strictObject({ heightMm: z.number().positive(), widthMm: z.number().positive() });

const date = z.strictObject({
  /** Years, before 1 as zero or negative; either may be left out. */
  notBefore: z.number().int().optional(),
  notAfter: z.number().int().optional(),
  /** As it is to be printed: "1247 x 1251", "late 13th century". */
  words,
  basis: z.enum(dateBases),
  basisWords: words.optional(),
});

/** From the matrix to this object, oldest first: what each was and of what. */
const link = z.strictObject({ object: z.enum(objectClasses), material: words });

/** One face of the seal. */
const side = z.strictObject({
  side: z.enum(sideNames),
  shape: z.enum(cardShapes),
  /** What the matrix printed: the size that a catalogue prints; where it was taken from is part of it. */
  image: size.extend({ from: z.enum(imageSizeSources) }).optional(),
  motif: words.optional(),
  legend: transcriptionSchema.optional(),
});

/** What a cast alone has. */
const cast = z.strictObject({
  material: z.enum(castMaterials),
  maker: words.optional(),
  makersNumber: words.optional(),
  /** Size of the cast against its original, only where a source is named; not known else. */
  changeOfSize: z.strictObject({ percent: z.number(), source: words }).optional(),
  /** How the original hangs on its document, not the cast. */
  original: z.strictObject({ attachment: z.enum(attachments), status: z.enum(statuses) }),
});

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
  schema: z.literal('ectype/card/2'),
  repository: words.optional(),
  shelfmark: words,
  /** Seal n of m on its document. */
  seal: z.strictObject({ number: z.number().int().positive(), of: z.number().int().positive() }).optional(),
  objectType: z.enum(objectTypes),
  attachment: z.enum(attachments),
  status: z.enum(statuses),
  covering: z.enum(coverings),
  protection: z.enum(protections),
  object: z.strictObject({
    class: z.enum(objectClasses),
    /** Copying steps from the matrix: matrix 0, impression 1, mould of it 2, cast from that 3; null where not known. */
    generation: z.number().int().min(0).nullable(),
    chain: z.array(link),
  }),
  cast: cast.optional(),
  /** Parent, casts, and siblings from one mould. */
  links: z.array(z.strictObject({ relation: z.enum(relations), words, uri: z.url().optional() })),
  owner: words.optional(),
  colour: words.optional(),
  sides: z.array(side).min(1).max(2),
  /** Where both sides were measured in one piece: the turn of the second's top against the first's, as on a turned page. */
  betweenSides: z
    .strictObject({
      turnDeg: z.number().optional(),
      offsetMm: z.number().min(0).optional(),
      thicknessMm: z.number().positive().optional(),
    })
    .optional(),
  /** The whole cake, cast or metal, and what survives of it: never the image. */
  piece: size.optional(),
  surviving: size.optional(),
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
export type CardSide = Card['sides'][number];

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
  if (kind !== 'impression' && card.attachment !== 'unknown')
    yield { field: 'attachment', words: `A ${kind} does not hang on a document; a cast's original has its own field.` };
  if (card.cast && kind !== 'cast')
    yield { field: 'cast', words: `What a cast alone has is filled in, but the object is a ${kind}.` };
  const { notBefore, notAfter } = card.date ?? {};
  if (notBefore !== undefined && notAfter !== undefined && notBefore > notAfter)
    yield { field: 'date', words: 'The earliest year comes after the latest.' };
  yield* sizeFaults(card);
  const [one, two] = card.sides;
  if (two && one.side === two.side && one.side !== 'unknown')
    yield { field: 'sides.1', words: `Both sides are the ${one.side}.` };
  for (const [k, { legend }] of card.sides.entries())
    for (const issue of legend ? validateTranscription(legend) : [])
      yield { field: `sides.${k}.legend.items.${issue.index}`, words: issue.words };
}

function* sizeFaults({ piece, surviving, sides }: Card): Generator<{ field: string; words: string }> {
  const less = (a: { heightMm: number; widthMm: number }, b: { heightMm: number; widthMm: number }): boolean =>
    a.heightMm < b.heightMm || a.widthMm < b.widthMm;
  if (piece && surviving && less(piece, surviving))
    yield { field: 'surviving', words: 'What survives cannot be larger than the piece was.' };
  // A fragment may be smaller than the image; the whole piece may not.
  if (piece && sides.some(({ image }) => image && less(piece, image)))
    yield { field: 'piece', words: 'The whole piece cannot be smaller than the image on it.' };
}

/** Reads a card from parsed JSON. Throws RangeError with the first fault. */
export function parseCard(input: unknown): Card {
  const [first] = validateCard(input);
  if (first) throw new RangeError(`The card is not valid at ${first.field}: ${first.words}`);
  return cardSchema.parse(input);
}
