import type { Band } from '../core/design/index.ts';
import { comparePrepared, type PreparedScan } from '../core/pipeline.ts';
import {
  type Composite,
  compositeStrips,
  type Kinship,
  kinshipOf,
  type Laid,
  laidOn,
  type StackedStrip,
  stackStrips,
  type UnrollOptions,
  type WitnessStanding,
} from '../core/read/index.ts';

/** Fits every further scan to the first and judges it. */
export const laidOnFirst = (first: PreparedScan, others: readonly PreparedScan[]): Laid =>
  laidOn(
    { name: first.scan.name, face: first.face },
    others.map((other) => {
      const { fit, judgement, reference, subject } = comparePrepared(first, other);
      // A pair may agree on another face of an object with two; its legend is not the one that was unrolled.
      const found = fit.found && reference.face.candidate === first.face.candidate;
      return { name: other.scan.name, face: subject.face, fit: { ...fit, found }, judgement };
    }),
  );

/** Copies among the further witnesses themselves: every two of one sense that are of the first one's matrix are compared. */
export function kinAmong(others: readonly PreparedScan[], standings: readonly WitnessStanding[]): Kinship[] {
  const supported = others.filter(({ scan }) =>
    standings.some(({ name, finding }) => name === scan.name && finding === 'supported'),
  );
  return supported.flatMap((two, k) =>
    supported
      .slice(0, k)
      .filter((one) => one.face.sense === two.face.sense)
      .flatMap((one) => kinshipOf(one.scan.name, two.scan.name, comparePrepared(one, two).judgement.descent)),
  );
}

/** Their legends in register under the first one's. */
export const stackOf = (
  first: PreparedScan,
  { witnesses }: Laid,
  band: Band,
  options: UnrollOptions & { readonly pitchMm: number },
): StackedStrip[] => stackStrips(first.face, band, witnesses, options);

export const compositeOf = (strips: readonly StackedStrip[], laid: Laid, band: Band): Composite =>
  compositeStrips(strips, laid.standings, {
    sizeMm: band.lettersInnerMm - band.lettersOuterMm,
    noiseMm: laid.noiseMm,
    kin: laid.kin,
  });
