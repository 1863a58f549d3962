import { formRemoved, gaussianFilter, type HeightGrid, withHeights } from '../../geometry/index.ts';
import type { StackedStrip } from './stack.ts';
import type { Strip } from './unroll.ts';

/** What judgement says of a witness against the reference: only like may be put together with like. */
export interface WitnessStanding {
  readonly name: string;
  /** The reference itself needs no finding. */
  readonly isReference?: boolean;
  readonly finding: 'supported' | 'against' | 'otherDesign' | 'undecided' | null;
  readonly state: 'sameState' | 'subjectEarlier' | 'subjectLater' | 'cannotJudge' | null;
  /** Lowers or raises this witness's weight everywhere; 1 unless stated, 0 leaves it out. */
  readonly weight?: number;
}

const stateInWords = {
  sameState: 'same state',
  subjectEarlier: 'earlier state',
  subjectLater: 'later state',
  cannotJudge: 'state cannot be judged',
} as const;

/** What judgement says of a witness, for its line. */
export const standingWords = ({ finding, state }: Pick<WitnessStanding, 'finding' | 'state'>): string =>
  `from this matrix or a faithful copy of it: ${finding ?? 'not judged'}${state ? `; ${stateInWords[state]}` : ''}`;

export interface CompositeOptions {
  /** Size over which preservation is judged, mm: about a letter's height. */
  readonly sizeMm: number;
  /** Above this the witness's own noise, mm (1 σ), is not taken for preservation. */
  readonly noiseMm?: readonly number[];
}

export type Composite =
  | {
      readonly refused: false;
      /** Detail (form removed), mm. */
      readonly strip: Strip;
      /** Index of the witness that weighs most at each cell, 255 where there is none. */
      readonly contributor: Uint8Array;
      /** Share of the cells with data to which each witness gives most. */
      readonly shares: readonly number[];
      readonly names: readonly string[];
      readonly caption: string;
    }
  | { readonly refused: true; readonly witness: string; readonly reason: string };

/**
 * One strip from several witnesses in register, each place from the one that has kept it best.
 *
 * Preservation q of a witness: local mean square of its detail (form above 2 sizes removed), less its noise's. Of three
 * or more, one that is like none of the others is marked down by exp(−10 (1 − c)), c its greatest local correlation with
 * another, so that chips and cuts are not taken for letters; correlation leaves height alone, so that a letter kept by
 * one only is not held against it by the others, which show the same strokes rubbed down. Weight = q² × the mark-down ×
 * the standing's own weight; heights are the weighted mean. Detail, not height, is put together, because levels of
 * different objects differ.
 *
 * Refused across different states, and for any witness whose finding is not "supported". Where nothing on a witness tells
 * its state, the caption says so. The method is this project's own.
 */
export function compositeStrips(
  strips: readonly StackedStrip[],
  standings: readonly WitnessStanding[],
  options: CompositeOptions,
): Composite {
  const refusal = refusalOf(strips, standings);
  if (refusal) return refusal;
  const details = strips.map(({ strip }) => formRemoved(strip.grid, 2 * options.sizeMm));
  const support = details.length > 2 ? supportOf(details, options.sizeMm) : null;
  const weights = details.map((detail, k) =>
    preservation(detail, options.sizeMm, options.noiseMm?.[k] ?? 0).map(
      (value, i) => value * (support ? Math.exp(-10 * (1 - support[k][i])) : 1) * (standings[k].weight ?? 1) + 1e-30,
    ),
  );
  const { z, mask, contributor } = weightedMean(details, weights);
  const grid = withHeights(details[0], z, mask);
  const names = strips.map(({ name }) => name);
  const shares = sharesOf(contributor, names.length);
  const parts = names.map((name, k) => `${name} ${Math.round(100 * shares[k])} %`).join(', ');
  return {
    refused: false,
    strip: { ...strips[0].strip, grid },
    contributor,
    shares,
    names,
    caption: `Composite of ${names.length} witnesses (${parts}): no single object shows this.${stateWords(standings)}`,
  };
}

/** Which witnesses might show another state without anybody knowing. */
function stateWords(standings: readonly WitnessStanding[]): string {
  const untold = standings.filter(({ isReference, state }) => !isReference && state === 'cannotJudge');
  if (untold.length === 0) return '';
  return ` Whether ${untold.map(({ name }) => name).join(' and ')} show${untold.length === 1 ? 's' : ''} the same state of the matrix cannot be judged.`;
}

function refusalOf(strips: readonly StackedStrip[], standings: readonly WitnessStanding[]): Composite | null {
  if (strips.length !== standings.length || strips.some(({ name }, k) => standings[k].name !== name))
    throw new Error('Every strip needs its own standing, in the same order.');
  const refuse = (witness: string, reason: string): Composite => ({ refused: true, witness, reason });
  if (strips.length < 2) return refuse(strips[0]?.name ?? '', 'A composite needs at least two witnesses.');
  const size = strips[0].strip.grid;
  for (const { name, strip } of strips)
    if (strip.grid.width !== size.width || strip.grid.height !== size.height)
      return refuse(name, `${name} is not in register with the others.`);
  for (const { name, isReference, finding, state } of standings) {
    if (isReference) continue;
    if (finding !== 'supported')
      return refuse(
        name,
        `${name} is left out: that it comes from this matrix is not supported (${finding ?? 'not judged'}).`,
      );
    if (state === 'subjectEarlier' || state === 'subjectLater')
      return refuse(name, `${name} shows another state of the matrix: states are not put together.`);
    if (state === null) return refuse(name, `${name} is left out: its state was not judged.`);
  }
  return null;
}

/** Mean over about a letter, weights falling off as a Gaussian's. */
const localMean = (grid: HeightGrid, sizeMm: number, mask: Uint8Array, f: (i: number) => number): Float32Array => {
  const values = grid.z.map((_, i) => (mask[i] ? f(i) : 0));
  return gaussianFilter({ ...grid, mask, z: values }, 2.5 * sizeMm).z;
};

/** q²: squared local mean square above the noise's. */
function preservation(detail: HeightGrid, sizeMm: number, noiseMm: number): Float32Array {
  const own = localMean(detail, sizeMm, detail.mask, (i) => detail.z[i] ** 2);
  return own.map((square, i) => (detail.mask[i] ? Math.max(0, square - noiseMm * noiseMm) ** 2 + 1e-18 : 0));
}

/** For every witness its greatest local correlation, at least 0, with any other. */
function supportOf(details: readonly HeightGrid[], sizeMm: number): Float32Array[] {
  const best = details.map(({ z }) => new Float32Array(z.length));
  details.forEach((a, k) => {
    for (let j = k + 1; j < details.length; j++) {
      const b = details[j];
      const both = a.mask.map((has, i) => has & b.mask[i]);
      const aa = localMean(a, sizeMm, both, (i) => a.z[i] ** 2);
      const bb = localMean(a, sizeMm, both, (i) => b.z[i] ** 2);
      const ab = localMean(a, sizeMm, both, (i) => a.z[i] * b.z[i]);
      for (let i = 0; i < ab.length; i++) {
        const likeness = both[i] ? ab[i] / Math.sqrt(Math.max(1e-18, aa[i] * bb[i])) : 0;
        best[k][i] = Math.max(best[k][i], likeness);
        best[j][i] = Math.max(best[j][i], likeness);
      }
    }
  });
  return best;
}

function weightedMean(details: readonly HeightGrid[], weights: readonly Float32Array[]) {
  const size = details[0].z.length;
  const z = new Float32Array(size);
  const mask = new Uint8Array(size);
  const contributor = new Uint8Array(size).fill(255);
  for (let i = 0; i < size; i++) {
    let sum = 0;
    let total = 0;
    let most = 0;
    for (let k = 0; k < details.length; k++) {
      if (!details[k].mask[i]) continue;
      const w = weights[k][i];
      sum += w * details[k].z[i];
      total += w;
      if (w > most) {
        most = w;
        contributor[i] = k;
      }
    }
    if (total === 0) continue;
    z[i] = sum / total;
    mask[i] = 1;
  }
  return { z, mask, contributor };
}

function sharesOf(contributor: Uint8Array, count: number): number[] {
  const shares = new Array<number>(count).fill(0);
  let total = 0;
  for (const k of contributor)
    if (k !== 255) {
      shares[k]++;
      total++;
    }
  return shares.map((share) => share / Math.max(1, total));
}
