import type { SizeCaution, SizeSays } from '../../../src/core/judge/index.ts';

const senses = [true, false];
const ends = ['reference', 'subject', 'either'] as const;

/** Everything that size can say of a copy. */
export const sizeSays: readonly SizeSays[] = (['direct', 'copy', 'neither'] as const).flatMap((favours) =>
  ends.flatMap((copyIs) => senses.map((oneSense) => ({ favours, copyIs, oneSense, ratio: 1.0252, sd: 0.0044 }))),
);

export const cautions: readonly SizeCaution[] = [
  ...sizeSays.filter(({ favours }) => favours === 'copy').map((says) => ({ kind: 'copy', ...says }) as const),
  { kind: 'grown', grownPercent: 2.52, sdPercent: 0.44 },
];
