import type { Band } from '../core/design/index.ts';
import { chosenModel } from '../core/fit/index.ts';
import { identity } from '../core/geometry/index.ts';
import { comparePrepared, type PreparedScan } from '../core/pipeline.ts';
import {
  type Composite,
  compositeStrips,
  type LitPicture,
  type StackedStrip,
  stackStrips,
  standingWords,
  type UnrollOptions,
  type Witness,
  type WitnessStanding,
} from '../core/read/index.ts';

/** Strips of fitted objects in register, and those that could not be laid on the first. */
export interface Stack {
  readonly strips: readonly StackedStrip[];
  readonly standings: readonly WitnessStanding[];
  readonly noiseMm: readonly number[];
  readonly left: readonly string[];
}

/** Fits every further scan to the first, judges it, and lays its legend under the first one's. */
export function stacked(
  first: PreparedScan,
  others: readonly PreparedScan[],
  band: Band,
  options: UnrollOptions & { readonly pitchMm: number },
): Stack {
  const witnesses: Witness[] = [{ name: first.scan.name, face: first.face, referenceFromSubject: identity }];
  const standings: WitnessStanding[] = [{ name: first.scan.name, isReference: true, finding: null, state: null }];
  const noiseMm = [first.face.noiseMm];
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
    witnesses.push({ name, face: subject.face, referenceFromSubject: model.referenceFromSubject });
    standings.push({ name, finding: judgement.finding, state: judgement.state.reading });
    noiseMm.push(subject.face.noiseMm);
  }
  return { strips: stackStrips(first.face, band, witnesses, options), standings, noiseMm, left };
}

export const compositeOf = ({ strips, standings, noiseMm }: Stack, band: Band): Composite =>
  compositeStrips(strips, standings, { sizeMm: band.lettersInnerMm - band.lettersOuterMm, noiseMm });

/** What stands beside a strip: the comparison's word of a witness. */
export const lineOf = (standing: WitnessStanding): string =>
  standing.isReference ? 'the strip the others are laid under' : standingWords(standing);

/** Who gives most at each place, one grey each from dark to light, and the words that say which. */
export function contributorMap(composite: Extract<Composite, { refused: false }>): LitPicture {
  const { width, height } = composite.strip.grid;
  const greys = composite.names.map((_, k) => Math.round(40 + (180 * k) / Math.max(1, composite.names.length - 1)));
  const grey = new Uint8ClampedArray(composite.contributor.map((k) => (k === 255 ? 255 : greys[k])));
  const parts = composite.names.map((name, k) => `${name} grey ${greys[k]}`);
  return { width, height, grey, caption: `Map under it, who gives most: ${parts.join(', ')}; white none.` };
}
