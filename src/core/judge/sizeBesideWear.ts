import type { SizeReading } from '../compare/index.ts';
import type { Wear } from '../condition/index.ts';

export const sizeBesideWearDefaults = {
  /** Depth is not read as size where the whole lacks more than this share of its height, and more than so many ± of it. */
  lacks: 0.05,
  sds: 2,
};

/**
 * What the size says, held against what is left of the relief: depth is told by tops and floors that still touch, and
 * where the relief as a whole is lower by more than its own ± these are no witness of size.
 */
export function sizeBesideWear(
  readings: readonly SizeReading[],
  { zones }: Pick<Wear, 'zones'>,
  { lacks, sds }: typeof sizeBesideWearDefaults = sizeBesideWearDefaults,
): SizeReading[] {
  const whole = zones.find(({ zone }) => zone === 'whole');
  const lacking = whole ? 1 - whole.heightKept : Number.NaN;
  const worn = whole !== undefined && lacking > Math.max(lacks, sds * whole.heightKeptSd);
  return readings.map((reading) =>
    reading.code === 'depthAsSize' && worn ? { code: 'depthWorn', lacksPercent: 100 * lacking } : reading,
  );
}
