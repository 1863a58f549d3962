import * as z from 'zod';
import { stateToday, wearStates, withdrawnStates } from '../../core/condition/index.ts';
import type { StatedResults } from '../../workers/browser/protocol.ts';
import { modelSchema, zoneSchema } from '../admission/documentSchema.ts';
import { degrees, id, line, mm, number, perhaps, share, text, vec2 } from '../admission/parts.ts';
import { storedGrid } from './grids.ts';

/**
 * The results as a file holds them. They are what the file states, not what was worked out here: every sentence is plain
 * bounded text, every number is only drawn or printed beside the words that say so. The name is that of their shape; results
 * of another name are not read, and the comparison is made again.
 */
export const resultsSchemaName = 'ectype/results/1';

const lines = z.array(text).max(300);
const flatOutline = z.array(mm).max(20_000);

const mark = z.object({ id, label: line, words: lines, outline: z.array(vec2).max(20_000) });
const zoneOutline = z.object({ zone: zoneSchema, outlines: z.array(flatOutline).max(2_000) });
/** Files of before hold causes that are not told any more. */
const wearState = z.enum([...wearStates, ...withdrawnStates]).transform(stateToday);

/** The words and drawings of the judgement. */
const statedSchema: z.ZodType<StatedResults> = z.object({
  sentence: text,
  /** How strong it is called, and for or against what. */
  strength: line,
  limits: lines,
  ground: lines,
  grounds: z
    .array(z.object({ title: line, figure: line, says: text, against: text, overturn: text, how: text }))
    .max(20)
    .exactOptional(),
  doubts: lines,
  size: lines,
  marks: z.array(mark).max(300),
  zones: z
    .array(
      z.object({
        zone: zoneSchema,
        state: wearState,
        heightKept: perhaps,
        heightKeptSd: perhaps,
        fraction: perhaps,
      }),
    )
    .max(100),
  zoneOutlines: z.array(zoneOutline).max(20),
  areas: z
    .array(zoneOutline.extend({ state: wearState, areaMm2: number }))
    .max(100)
    .transform(joined),
});

/** Parts of one zone in one state as one: causes that were told apart are one state now. */
function joined<T extends StatedResults['areas'][number]>(areas: readonly T[]): T[] {
  const parts = new Map<string, T>();
  for (const area of areas) {
    const key = `${area.zone} ${area.state}`;
    const before = parts.get(key);
    parts.set(key, {
      ...area,
      outlines: [...(before?.outlines ?? []), ...area.outlines],
      areaMm2: (before?.areaMm2 ?? 0) + area.areaMm2,
    });
  }
  return [...parts.values()];
}

const statistics = { medianMm: perhaps, madMm: perhaps, rmsMm: perhaps, p95Mm: perhaps, coveredFraction: perhaps };

const similarity = z.object({
  scale: z.number().min(0.01).max(100),
  rotation: z.array(z.number().min(-2).max(2)).length(9),
  translation: z.tuple([mm, mm, mm]),
});

const fitSchema = z.object({
  found: z.boolean(),
  chosen: modelSchema,
  turnedOver: z.boolean(),
  mirrored: z.boolean(),
  overlap: share,
  score: perhaps,
  rivalScore: perhaps,
  significance: perhaps,
  models: z
    .array(
      z.object({
        model: modelSchema,
        scale: number,
        scaleSd: perhaps,
        rmsMm: perhaps,
        heldOutRmsMm: perhaps,
        warpRmsMm: perhaps.exactOptional(),
      }),
    )
    .max(3),
  rotationSdDeg: perhaps,
  translationSdMm: perhaps,
  rivalTurns: z.array(z.object({ turnDeg: degrees, score: perhaps })).max(72),
});

const differenceSchema = z.object({
  map: storedGrid,
  levelOfDetection: storedGrid,
  significant: storedGrid.exactOptional(),
  levelOfDetectionMm: perhaps,
  whole: z.object(statistics),
  zones: z.array(z.object({ zone: zoneSchema, ...statistics })).max(100),
  size: z.object({ ratio: perhaps, sd: perhaps, x: perhaps, y: perhaps, depth: perhaps }),
});

export const resultsSchema = z.object({
  schema: z.literal(resultsSchemaName),
  fit: fitSchema,
  referenceFaceFromSubjectFace: z.partialRecord(modelSchema, similarity),
  difference: differenceSchema.nullable(),
  stated: statedSchema.nullable(),
});
export type ResultsInFile = z.output<typeof resultsSchema>;
