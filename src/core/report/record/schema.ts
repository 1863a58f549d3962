import * as z from 'zod';
import { wearStates, withdrawnStates } from '../../condition/index.ts';
import { kinds, units } from '../../scan/index.ts';
import { descentBySchema } from './descentSchema.ts';
import { digest, measured, share, text } from './fields.ts';

const texts = z.array(text);

/** Width and height of a thing on the face, mm. */
const extent = { widthMm: measured, heightMm: measured };
const shapes = ['round', 'oval', 'pointedOval', 'shield', 'square', 'lozenge', 'polygonal', 'irregular'] as const;

export const scanSchema = z.looseObject({
  file: text,
  sha256: digest,
  kind: z.enum(kinds),
  kindFrom: z.enum(['stated', 'assumed']),
  sense: z.enum(['intaglio', 'relief']),
  senseConfidence: share.nullable(),
  unit: z.enum(units),
  unitFrom: z.enum(['stated', 'file', 'assumed']),
  mirroredBack: z.literal(true).optional(),
  vertices: z.int().min(0),
  triangles: z.int().min(0),
  /** What the matrix printed: the size of the seal; null where it was not measured. */
  image: z
    .looseObject({
      ...extent,
      shape: z.enum(shapes),
      edge: z.enum(['matrixEdge', 'border']),
      /** From this object itself, or from its partner's image, scaled by the fit: then an estimate. */
      from: z.enum(['itself', 'partner']),
    })
    .nullable(),
  /** The whole cake, cast or metal. */
  piece: z.looseObject(extent).nullable(),
  /** What is left of the image. */
  surviving: z.looseObject({ ...extent, shareOfImage: share.nullable() }).nullable(),
});

const models = ['rigid', 'oneScale', 'smoothWarp'] as const;

const fitModel = z.looseObject({
  model: z.enum(models),
  scale: measured,
  scaleSd: measured,
  rmsMm: measured,
  warpRmsMm: measured.optional(),
});

const fit = z
  .looseObject({
    found: z.boolean(),
    /** Subject file in mm → reference file in mm, row-major 4 × 4; null where no fit was found. */
    subjectToReference: z.array(z.number()).length(16).nullable(),
    chosen: z.enum(models),
    turnedOver: z.boolean(),
    mirrored: z.boolean(),
    overlap: share,
    models: z.array(fitModel),
    rotationSdDeg: measured,
    translationSdMm: measured,
    rivalTurns: z.array(z.looseObject({ turnDeg: z.number(), score: measured })),
    /** Given where the fit began at a place that was put by hand. */
    start: z.looseObject({ by: z.literal('hand'), from: z.enum(['turn', 'pairs']) }).optional(),
  })
  .refine((value) => value.found === (value.subjectToReference !== null), {
    path: ['subjectToReference'],
    message: 'is a matrix where a fit was found, and null where none was',
  })
  .refine((value) => value.subjectToReference === null || isSimilarity(value.subjectToReference), {
    path: ['subjectToReference'],
    message: 'is not a similarity: equal, square axes and a last row of 0 0 0 1',
  });

/** Columns of one length at right angles to each other, within a part in a million; last row 0 0 0 1. */
function isSimilarity(m: readonly number[]): boolean {
  if (m[12] !== 0 || m[13] !== 0 || m[14] !== 0 || m[15] !== 1) return false;
  const product = (a: number, b: number): number => m[a] * m[b] + m[a + 4] * m[b + 4] + m[a + 8] * m[b + 8];
  const square = product(0, 0);
  const near = (value: number, target: number): boolean => Math.abs(value - target) <= 1e-6 * square;
  return (
    square > 0 &&
    near(product(1, 1), square) &&
    near(product(2, 2), square) &&
    near(product(0, 1), 0) &&
    near(product(0, 2), 0) &&
    near(product(1, 2), 0)
  );
}

/** Of the reference's image, within its convex hull: of no lip, bevel or cake beyond. `coveredFraction`: the share of it that has a counterpart on the subject. */
const difference = z.looseObject({
  medianMm: measured,
  madMm: measured,
  rmsMm: measured,
  p95Mm: measured,
  levelOfDetectionMm: measured,
  coveredFraction: share,
});

const size = z.looseObject({
  ratio: measured,
  sd: measured,
  x: measured,
  y: measured,
  depth: measured,
  reading: texts,
});

const wear = z.looseObject({
  /** Share of the reference's face that the subject's surface does not reach, from the edge in. */
  gone: measured.optional(),
  zones: z.array(
    z.looseObject({
      zone: text,
      /** The last three in records of before 29 November 2026 alone: read them as lower. */
      state: z.enum([...wearStates, ...withdrawnStates]),
      heightKept: measured,
      fraction: share,
    }),
  ),
  byWavelength: z.array(z.looseObject({ fromMm: z.number(), toMm: z.number(), gain: measured, coherence: measured })),
});

const mark = z.looseObject({
  id: text,
  carriedBy: z.enum(['reference', 'subject', 'both']),
  at: z.looseObject({ deg: z.number(), hour: z.number(), radiusMm: z.number() }),
  areaMm2: measured,
  depthMm: measured,
  volumeMm3: measured,
  shape: text,
  onSubject: z.enum(['raised', 'sunk', 'absent']),
  readings: texts,
  /** Of a line: what its section says, and the numbers it says it from. */
  section: z.looseObject({ verdict: z.enum(['cut', 'crack', 'scratch', 'cannotTell']), words: text }).optional(),
});

const hypothesis = z.enum(['sameMatrix', 'copy', 'otherMatrix', 'unrelated']);
const favoured = z.enum([...hypothesis.options, 'neither']);

/** One piece of evidence: what it favours over what, by how much, its unit, and one standard deviation where known. */
const evidence = z.looseObject({
  name: text,
  favours: favoured,
  over: favoured,
  value: measured,
  unit: text,
  words: text,
  sd: measured.optional(),
});

const judge = z.looseObject({
  correlation: measured,
  cells: z.looseObject({ compared: z.int().min(0), congruent: z.int().min(0) }),
  /** Places of letters and ornaments; null where no fit was found or none was seen. */
  landmarks: z
    .looseObject({ found: z.int().min(0), seen: z.int().min(0), smoothMm: measured, outside: share })
    .nullable(),
  hypotheses: z.array(
    z.looseObject({
      id: hypothesis,
      over: text,
      words: text,
      /** log10 of the likelihood ratio; null unless the user's own known pairs calibrated it. */
      log10Lr: measured,
    }),
  ),
  state: z.looseObject({
    reading: z.enum(['sameState', 'subjectEarlier', 'subjectLater', 'cannotJudge']),
    marks: texts,
  }),
  /** The finding's thresholds with the numbers held against them; how the groups make the finding: docs/judge.md. */
  gates: z.array(
    z.looseObject({
      group: z.enum(['support', 'against', 'otherDesign']),
      name: text,
      value: measured,
      bound: z.enum(['atLeast', 'atMost']),
      limit: z.number(),
      unit: text,
      passed: z.boolean(),
    }),
  ),
  /** The argument in the order of its weight: what each ground says, what speaks against it, what would overturn it. */
  grounds: z.array(
    z.looseObject({
      code: text,
      speaks: z.enum(['for', 'against', 'neither', 'inTheWay']),
      /** A gate rests on it: without it the finding would be another. */
      decided: z.boolean(),
      title: text,
      figure: text,
      says: text,
      against: text,
      overturn: text,
      how: text,
      marks: texts,
    }),
  ),
  question: z.enum(['madeFrom', 'oneMatrix', 'oneParent']).nullable(),
  /** That the kinds are these and not the other way round. */
  rolesConfidence: share.nullable(),
  descent: z
    .enum(['independent', 'subjectFromReference', 'referenceFromSubject', 'oneDescent', 'oneParent', 'cannotJudge'])
    .nullable(),
  descentBy: descentBySchema.optional(),
  /** Of the score, 95 %. */
  interval: z.tuple([measured, measured]).nullable(),
  score: measured,
  /** Whether any hypothesis makes the pair likely; null where that was not worked out. */
  typical: z.boolean().nullable(),
  /** The pieces of evidence that the score is the sum of. */
  evidence: z.array(evidence),
  /** What the strength was set on, and how often it misled on pairs that it had not seen. */
  population: text.optional(),
  finding: z.enum(['supported', 'against', 'otherDesign', 'undecided']),
  strength: text,
  sentence: text,
  limits: z.array(z.looseObject({ code: text, words: text })),
});

const seconds = z.number().min(0).nullable();

const paradata = z.looseObject({
  version: text,
  /** The source's commit; "unknown" where it was not built from a clone. */
  build: text.optional(),
  /** Of the named figures and thresholds, sorted and as JSON. */
  evidence: digest,
  /** As resolved, what was taken where nothing was stated included; `stated` is what the user put. */
  parameters: z.looseObject({
    reference: z.record(z.string(), z.unknown()),
    subject: z.record(z.string(), z.unknown()),
    stated: z.record(z.string(), z.unknown()),
  }),
  /** ISO 8601. */
  startedAt: z.iso.datetime({ offset: true }),
  seconds: z.looseObject({ read: seconds, face: seconds, fit: seconds, compare: seconds, judge: seconds }),
});

/**
 * How far pictures stand turned clockwise against the reference's face frame, in the impression's sense, and from what that was taken.
 * Degrees and hours of places are told from their top. Older records have none: there they are told from the frame itself.
 */
export const uprightSchema = z.looseObject({
  turnDeg: z.number(),
  from: z.enum(['stated', 'longAxis', 'partner', 'motif', 'cross', 'scan']),
});

/** The record of one comparison; fields beyond these may join it. */
export const comparisonSchema = z.looseObject({
  schema: z.literal('ectype/comparison/2'),
  /** True where the scans were computed. */
  simulated: z.boolean().optional(),
  reference: scanSchema,
  subject: scanSchema,
  /** Regions that a person left out of both faces; outlines in the reference's face frame, x, y pairs, mm. */
  excluded: z
    .array(z.looseObject({ why: text, by: text, areaMm2: z.number(), outline: z.array(z.number()).min(6) }))
    .optional(),
  fit,
  difference,
  size,
  wear,
  upright: uprightSchema.optional(),
  damage: z.array(mark),
  judge,
  paradata,
});

export type ComparisonRecord = z.infer<typeof comparisonSchema>;
export type ScanRecord = ComparisonRecord['reference'];
export type EvidenceRecord = ComparisonRecord['judge']['evidence'][number];
export type GateRecord = ComparisonRecord['judge']['gates'][number];
export type MarkRecord = ComparisonRecord['damage'][number];
