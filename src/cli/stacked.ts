import type { Band } from '../core/design/index.ts';
import { comparePrepared, type PreparedScan } from '../core/pipeline.ts';
import {
  type Among,
  amongJudged,
  type Composite,
  compositeStrips,
  type Laid,
  laidOn,
  pairsAmong,
  type StackedStrip,
  stackStrips,
  type UnrollOptions,
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

/** What the further witnesses are to one another. */
export function among(others: readonly PreparedScan[], laid: Laid): Among {
  const scanOf = (name: string): PreparedScan => others.find(({ scan }) => scan.name === name) as PreparedScan;
  const pairs = pairsAmong(laid);
  return amongJudged(
    pairs,
    pairs.map(([one, two]) => comparePrepared(scanOf(one), scanOf(two)).judgement),
  );
}

/** Their legends in register under the first one's. */
export const stackOf = (
  first: PreparedScan,
  { witnesses }: Laid,
  band: Band,
  options: UnrollOptions & { readonly pitchMm: number },
): StackedStrip[] => stackStrips(first.face, band, witnesses, options);

/** `known`: what the further witnesses are to one another. */
export const compositeOf = (strips: readonly StackedStrip[], laid: Laid, known: Among, band: Band): Composite =>
  compositeStrips(strips, laid.standings, {
    sizeMm: band.lettersInnerMm - band.lettersOuterMm,
    noiseMm: laid.noiseMm,
    kin: [...laid.kin, ...known.kin],
    states: known.states,
  });
