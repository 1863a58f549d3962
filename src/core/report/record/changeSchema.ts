import * as z from 'zod';
import { digest, measured, share, text } from './fields.ts';
import { scanSchema, uprightSchema } from './schema.ts';

const change = z.looseObject({
  id: text,
  direction: z.enum(['lowered', 'raised', 'absent']),
  shape: z.enum(['area', 'line']),
  at: z.looseObject({ deg: z.number(), hour: z.number(), radiusMm: z.number() }),
  areaMm2: z.number().min(0),
  /** Later less earlier; null where the later has no surface. */
  meanMm: measured,
  farthestMm: measured,
  volumeMm3: measured,
  /** One standard deviation. */
  volumeSdMm3: measured,
  timesLeast: measured,
  lengthMm: measured.optional(),
  widthMm: measured.optional(),
  goesOn: z.boolean().optional(),
  /** Every cause that it can have, as codes; no order among them. */
  causes: z.array(text).min(1),
  words: text,
  /** Earlier's face frame, x, y pairs, mm. */
  outline: z.array(z.number()),
});

/** The record of one object on two dates. */
export const changeSchema = z
  .looseObject({
    schema: z.literal('ectype/change/1'),
    simulated: z.boolean().optional(),
    earlier: scanSchema,
    later: scanSchema,
    /** Second scans of the same dates, from which noise was measured. */
    repeats: z.looseObject({
      earlier: z.looseObject({ file: text, sha256: digest }).nullable(),
      later: z.looseObject({ file: text, sha256: digest }).nullable(),
    }),
    /** In the earlier's frame. */
    upright: uprightSchema.optional(),
    judged: z.boolean(),
    /** Why nothing could be judged; null where it was. */
    why: z.enum(['noFit', 'otherSense', 'mirrored', 'littleInCommon']).nullable(),
    registration: z
      .looseObject({
        /** Rigid: later file in mm → earlier file in mm, row-major 4 × 4. */
        laterToEarlier: z.array(z.number()).length(16),
        rotationSdDeg: measured,
        translationSdMm: measured,
        unchangedShare: share,
        comparedShare: share,
        bendingRmsMm: measured,
        blunter: z.enum(['earlier', 'later']),
        blurSigmaMm: measured,
      })
      .nullable(),
    size: z
      .looseObject({
        /** Later ÷ earlier. */
        ratio: measured,
        sd: measured,
        reading: z.enum(['same', 'larger', 'smaller', 'notStated']),
        words: text,
      })
      .nullable(),
    noise: z
      .looseObject({
        from: z.enum(['pair', 'oneRepeat', 'repeats']),
        /** One scan, one cell. */
        cellMm: measured,
        cellSideMm: z.number(),
        /** The least even change of height that would have been found, by area. */
        sensitivity: z.array(z.looseObject({ areaMm2: z.number(), heightMm: measured })),
      })
      .nullable(),
    changes: z.array(change),
    total: z
      .looseObject({
        loweredMm3: z.number(),
        loweredSdMm3: z.number(),
        raisedMm3: z.number(),
        raisedSdMm3: z.number(),
        areaMm2: z.number(),
      })
      .nullable(),
    sentence: text,
    limits: z.array(z.looseObject({ code: text, words: text })),
    paradata: z.looseObject({
      version: text,
      /** Hash of the figures and thresholds. */
      evidence: digest,
      parameters: z.record(z.string(), z.unknown()),
      startedAt: z.iso.datetime({ offset: true }),
      seconds: z.record(z.string(), measured),
    }),
  })
  .refine((value) => value.judged === (value.registration !== null && value.why === null), {
    path: ['registration'],
    message: 'is given where the change was judged, and null with a reason where it was not',
  });

export type ChangeRecord = z.infer<typeof changeSchema>;
