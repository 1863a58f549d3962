import type { Band } from '../core/design/index.ts';
import type { Face } from '../core/face/index.ts';
import { chosenModel } from '../core/fit/index.ts';
import { identity } from '../core/geometry/index.ts';
import { comparePrepared, type PreparedScan } from '../core/pipeline.ts';
import {
  type Composite,
  compositeStrips,
  type Kinship,
  kinshipOf,
  type StackedStrip,
  stackStrips,
  type UnrollOptions,
  type Witness,
  type WitnessStanding,
} from '../core/read/index.ts';

/** Fitted objects, and those that could not be laid on the first. */
export interface Laid {
  readonly witnesses: ReadonlyArray<Witness & { readonly face: Face }>;
  readonly standings: readonly WitnessStanding[];
  readonly noiseMm: readonly number[];
  readonly kin: readonly Kinship[];
  readonly left: readonly string[];
}

/** Fits every further scan to the first and judges it. */
export function laidOnFirst(first: PreparedScan, others: readonly PreparedScan[]): Laid {
  const witnesses: Array<Witness & { readonly face: Face }> = [
    { name: first.scan.name, face: first.face, referenceFromSubject: identity },
  ];
  const standings: WitnessStanding[] = [{ name: first.scan.name, isReference: true, finding: null, state: null }];
  const noiseMm = [first.face.noiseMm];
  const kin: Kinship[] = [];
  const left: string[] = [];
  for (const other of others) {
    const { name } = other.scan;
    const { fit, judgement, reference, subject } = comparePrepared(first, other);
    const model = chosenModel(fit);
    // A pair may agree on another face of an object with two; its legend is not the one that was unrolled.
    if (!fit.found || !model || reference.face.candidate !== first.face.candidate) {
      left.push(name);
      continue;
    }
    const { finding, state, question, descent } = judgement;
    witnesses.push({ name, face: subject.face, referenceFromSubject: model.referenceFromSubject });
    standings.push({ name, finding, state: state.reading, question });
    kin.push(...kinshipOf(first.scan.name, name, descent));
    noiseMm.push(subject.face.noiseMm);
  }
  return { witnesses, standings, noiseMm, kin, left };
}

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
