import * as z from 'zod';
import { resultsSchemaName } from './results.ts';

/** What the versions of the file are called. The newest is written; all are read. */
export const savedSchemaName = 'ectype/saved/2';
const earlier = 'ectype/saved/1';

export const savedNamePrefix = 'ectype/saved/';

export const isSavedName = (name: unknown): boolean => typeof name === 'string' && name.startsWith(savedNamePrefix);
export const isLater = (name: string): boolean => name !== savedSchemaName && name !== earlier;

/** A file of any version in the newest shape, not yet admitted. */
export function migrated(saved: Record<string, unknown>): Record<string, unknown> {
  return saved.schema === earlier ? fromVersion1(saved) : saved;
}

const words = z.array(z.string()).catch([]);
const floats = z.object({ floats: z.array(z.number()) }).transform((packed) => packed.floats);

/** What version 1 kept of a judgement: the record of its day. Only what is shown of a file is taken over. */
const judgement1 = z.object({
  sentence: z.string(),
  strength: z.string().catch(''),
  finding: z.string().catch(''),
  limits: words,
  evidence: z.array(z.object({ name: z.string(), words: z.string() })).catch([]),
  damage: z.array(z.object({ id: z.string(), shape: z.string(), readings: words, outline: floats })).catch([]),
  wear: z
    .object({
      zones: z.array(z.unknown()).catch([]),
      zoneOutlines: z.array(z.looseObject({ outlines: z.array(floats) })).catch([]),
      areas: z.array(z.looseObject({ outlines: z.array(floats) })).catch([]),
    })
    .catch({ zones: [], zoneOutlines: [], areas: [] }),
});

const comparison1 = z.looseObject({
  fit: z.looseObject({ doubts: words, degenerate: words }),
  difference: z.looseObject({ size: z.looseObject({ reading: words }) }).nullable(),
  judgement: judgement1.nullable().catch(null),
});

/** Version 1 held the results in the shape that the program computed with. What does not fit is left out: it can be made again. */
function fromVersion1({ comparison, ...rest }: Record<string, unknown>): Record<string, unknown> {
  const read = comparison1.safeParse(comparison);
  return { ...rest, schema: savedSchemaName, results: read.success ? results1(read.data) : null };
}

function results1({ judgement, ...comparison }: z.output<typeof comparison1>): Record<string, unknown> {
  const { fit, difference } = comparison;
  const stated = judgement && {
    sentence: judgement.sentence,
    strength: `${judgement.strength} (${judgement.finding})`,
    limits: judgement.limits,
    ground: judgement.evidence.map(({ name, words: said }) => `${name}: ${said}`),
    doubts: [...fit.doubts, ...fit.degenerate],
    size: difference?.size.reading ?? [],
    marks: judgement.damage.map(({ id, shape, readings, outline }) => ({
      id,
      label: shape,
      words: readings,
      outline: outline.flatMap((x, i) => (i % 2 === 0 && i + 1 < outline.length ? [[x, outline[i + 1]]] : [])),
    })),
    ...judgement.wear,
  };
  return {
    schema: resultsSchemaName,
    fit,
    referenceFaceFromSubjectFace: comparison.referenceFaceFromSubjectFace,
    difference,
    stated,
  };
}
