import * as z from 'zod';
import { type LookInput, lookSchema, type Transcription, transcriptionSchema, views } from '../../core/read/index.ts';
import { emptyRead, type ReadDocument } from '../state/readDocument.ts';
import { count, degrees, id, line, positiveMm, text } from './parts.ts';

const mostItems = 4_000;

/** As the core reads it, and no longer than a legend can be. */
const transcription: z.ZodType<Transcription> = transcriptionSchema.refine(
  ({ items, sources }) => items.length <= mostItems && sources.length <= 500,
  { message: 'too long' },
);

const look: z.ZodType<LookInput> = z.unknown().transform((value, context) => {
  const read = lookSchema.safeParse(value);
  // As it was written, its defaults left out: a look that is edited stays as its writer left it.
  if (read.success && read.data.name.length <= 200 && read.data.steps.length <= 50) return value as LookInput;
  context.issues.push({ code: 'custom', input: value, message: 'no look' });
  return z.NEVER;
});

const ring = z.object({
  outerMm: positiveMm.exactOptional(),
  innerMm: positiveMm.exactOptional(),
  startDeg: degrees.exactOptional(),
  facing: z.enum(['inward', 'outward']).exactOptional(),
});

const legend = z.object({
  ring: count.max(20),
  rings: z.record(z.string().max(20), ring),
  transcription,
  reader: line.exactOptional(),
  aside: z
    .array(z.object({ name: line, transcription }))
    .max(20)
    .exactOptional(),
});

/** All that the reading room keeps. A field that an earlier version did not have takes its resting value. */
export const readSchema: z.ZodType<ReadDocument> = z.object({
  faceLook: line.default(emptyRead.faceLook),
  stripLook: line.default(emptyRead.stripLook),
  looks: z.array(look).max(100).default([]),
  lamp: z
    .object({ azimuthDeg: degrees, heightDeg: z.number().min(0).max(90) })
    .nullable()
    .default(null),
  view: z.enum(views).nullable().default(null),
  legends: z.record(id, legend).default({}),
  cards: z.record(id, z.record(line, text)).default({}),
});
