import * as z from 'zod';
import { measured, text } from './fields.ts';

/** What a descent was read from, where one was asked for; older records have none. */
export const descentBySchema = z.looseObject({
  size: z.boolean(),
  /** Why only one of two positives of one descent can be the copy; older records have none. */
  step: z
    .looseObject({
      copyIs: z.enum(['reference', 'subject']),
      ...{ largerPercent: measured, sdPercent: measured, mostPercent: measured },
      material: text.nullable(),
    })
    .nullish(),
  losses: z
    .looseObject({
      ...{ count: z.int(), atEdge: z.int(), areaMm2: measured, byChance: z.int() },
      /** Where the floors at the edge are one broken surface; older records have none. */
      floors: z.looseObject({ sigma: measured, alike: measured, roughMm: measured }).nullish(),
    })
    .nullable(),
  /** `stretches`: where both are broken alike, ways in the reference's face frame, x, y pairs, mm. */
  edge: z
    .looseObject({
      ...{ lengthMm: measured, roughMm: measured, apartMm: measured, sigma: measured },
      stretches: z.array(z.array(z.number())),
    })
    .nullable(),
});
