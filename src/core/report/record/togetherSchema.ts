import * as z from 'zod';
import { comparisonSchema } from './schema.ts';

/** Place of a subject in `comparisons`, from 0. */
const subject = z.int().min(0);

/** What several subjects say together about one reference. */
export const togetherSchema = z.looseObject({
  /** Each mark against each subject, in the order of `comparisons`. */
  marks: z.array(z.looseObject({ id: z.string(), seen: z.array(z.enum(['present', 'absent', 'cannotJudge'])) })),
  /** Dates from documents, as the user states them, for the reader alone: nothing is worked out from them. */
  dates: z.array(z.looseObject({ subject, words: z.string() })).optional(),
  /** The partial order that the marks allow, each step with the marks it rests on. */
  order: z.array(z.looseObject({ earlier: subject, later: subject, marks: z.array(z.string()) })),
  /** Each subject against the reference, as its own record reads it; `ownMarks` are that record's ids. */
  againstReference: z
    .array(
      z.looseObject({
        subject,
        reading: z.enum(['sameState', 'subjectEarlier', 'subjectLater', 'cannotJudge']),
        marks: z.array(z.string()),
        words: z.string(),
      }),
    )
    .optional(),
  /** Sets of marks that allow no order. */
  contradictions: z.array(z.looseObject({ subjects: z.array(subject), words: z.string() })).optional(),
  /** Sunk marks that several subjects share, each with the codes of all its causes: no proof of common descent. */
  sharedAccidents: z.array(z.looseObject({ subjects: z.array(subject), words: z.string() })),
  /** Who contributes where to a composite. */
  composite: z.array(z.looseObject({ subject, fraction: z.number().min(0).max(1) })),
});

/** The record of several subjects against one reference. */
export const comparisonsSchema = z
  .looseObject({
    schema: z.literal('ectype/comparisons/2'),
    comparisons: z.array(comparisonSchema).min(1),
    together: togetherSchema,
  })
  .refine((value) => value.together.marks.every((mark) => mark.seen.length === value.comparisons.length), {
    path: ['together', 'marks'],
    message: 'say something about every subject',
  });

export type Together = z.infer<typeof togetherSchema>;
export type ComparisonsRecord = z.infer<typeof comparisonsSchema>;
