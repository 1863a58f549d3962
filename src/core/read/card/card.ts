import * as z from 'zod';
import { units } from '../../scan/index.ts';
import { transcriptionSchema } from '../text/index.ts';
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
