import { formRemoved, gaussianFilter, type HeightGrid, withHeights } from '../../geometry/index.ts';
import { ofOneState, type PairState, stateUntold } from './oneState.ts';
import type { StackedStrip } from './stack.ts';
import type { Kinship, WitnessStanding } from './standing.ts';
import type { Strip } from './unroll.ts';

/** Why a witness has no part in a composite. */
export type LeftOut = { readonly name: string } & (
  | { readonly code: 'notSupported'; readonly finding: WitnessStanding['finding'] }
  | { readonly code: 'otherState' | 'stateNotJudged' | 'notInRegister' }
  | { readonly code: 'kin'; readonly of: string; readonly isCopy: boolean }
);

export interface CompositeOptions {
  /** Size over which preservation is judged, mm: about a letter's height. */
  readonly sizeMm: number;
  /** Above this the witness's own noise, mm (1 σ), is not taken for preservation. */
  readonly noiseMm?: readonly number[];
  /** Copies among the witnesses. */
  readonly kin?: readonly Kinship[];
  /** What is known of the states of the further witnesses beside one another. */
  readonly states?: readonly PairState[];
}

export type Composite =
  | {
      readonly refused: false;
      /** Detail (form removed), mm. */
      readonly strip: Strip;
      /** Index of the witness that weighs most at each cell, 255 where there is none. */
      readonly contributor: Uint8Array;
      /** Share of the cells with data to which each witness gives most; 0 for one left out. */
      readonly shares: readonly number[];
      readonly names: readonly string[];
      readonly leftOut: readonly LeftOut[];
      /** Of these nothing tells whether they show the same state. */
      readonly stateUntold: readonly string[];
    }
  | { readonly refused: true; readonly leftOut: readonly LeftOut[] };

/**
 * One strip from several witnesses in register, each place from the one that has kept it best.
 *
 * Only witnesses of the reference's matrix are put together, of them the largest group of one state (at a tie the
 * reference's), and of a copy and its parent one: the parent, or the one named first where it is not known which is the
 * copy. The others are left out, each with its reason; with fewer than two left the composite is refused.
 *
 * Preservation q of a witness: local mean square of its detail (form above 2 sizes removed), less its noise's. Of three
 * or more, one that is like none of the others is marked down by exp(−10 (1 − c)), c its greatest local correlation with
 * another, so that chips and cuts are not taken for letters; correlation leaves height alone, so that a letter kept by
 * one only is not held against it by the others, which show the same strokes rubbed down. Weight = q² × the mark-down ×
 * the standing's own weight; heights are the weighted mean. Detail, not height, is put together, because levels of
 * different objects differ. The method is this project's own.
 */
export function compositeStrips(
  strips: readonly StackedStrip[],
  standings: readonly WitnessStanding[],
  options: CompositeOptions,
): Composite {
  if (strips.length !== standings.length || strips.some(({ name }, k) => standings[k].name !== name))
    throw new Error('Every strip needs its own standing, in the same order.');
  const leftOut = leftOutOf(strips, standings, options);
  const used = strips.map((_, k) => k).filter((k) => !leftOut.some(({ name }) => name === strips[k].name));
  if (used.length < 2) return { refused: true, leftOut };
  const details = used.map((k) => formRemoved(strips[k].strip.grid, 2 * options.sizeMm));
  const support = details.length > 2 ? supportOf(details, options.sizeMm) : null;
  const weights = details.map((detail, j) =>
    preservation(detail, options.sizeMm, options.noiseMm?.[used[j]] ?? 0).map(
      (value, i) =>
        value * (support ? Math.exp(-10 * (1 - support[j][i])) : 1) * (standings[used[j]].weight ?? 1) + 1e-30,
    ),
  );
  const { z, mask, contributor } = weightedMean(details, weights);
  const own = contributor.map((j) => (j === 255 ? 255 : used[j]));
  return {
    refused: false,
    strip: { ...strips[used[0]].strip, grid: withHeights(details[0], z, mask) },
    contributor: own,
    shares: sharesOf(own, strips.length),
    names: strips.map(({ name }) => name),
    leftOut,
    stateUntold: stateUntold(
      used.map((k) => standings[k]),
      options.states ?? [],
    ),
  };
}

function leftOutOf(
  strips: readonly StackedStrip[],
  standings: readonly WitnessStanding[],
  { kin = [], states = [] }: CompositeOptions,
): LeftOut[] {
  const { width, height } = strips[0].strip.grid;
  const left: LeftOut[] = [];
  strips.forEach(({ name, strip: { grid } }, k) => {
    const { isReference, finding, state } = standings[k];
    if (grid.width !== width || grid.height !== height) left.push({ name, code: 'notInRegister' });
    else if (isReference) return;
    else if (finding !== 'supported') left.push({ name, code: 'notSupported', finding });
    else if (state === null) left.push({ name, code: 'stateNotJudged' });
  });
  const judged = standings.filter(({ name }) => !left.some((each) => each.name === name));
  const group = ofOneState(judged, states, (names) => names.length - leftAsKin(names, kin).length);
  for (const { name } of judged) if (!group.includes(name)) left.push({ name, code: 'otherState' });
  return [...left, ...leftAsKin(group, kin)];
}

/** Of each copy and its parent that are both among the names, the one that does not count. */
function leftAsKin(names: readonly string[], kin: readonly Kinship[]): LeftOut[] {
  const left: LeftOut[] = [];
  for (const { one, two, copy } of kin) {
    if ([one, two].some((name) => !names.includes(name) || left.some((each) => each.name === name))) continue;
    const name = copy ?? two;
    left.push({ name, code: 'kin', of: name === one ? two : one, isCopy: copy !== null });
  }
  return left;
}

/** Mean over about a letter, weights falling off as a Gaussian's. */
const localMean = (grid: HeightGrid, sizeMm: number, mask: Uint8Array, f: (i: number) => number): Float32Array => {
  const values = grid.z.map((_, i) => (mask[i] ? f(i) : 0));
  return gaussianFilter(withHeights(grid, values, mask), 2.5 * sizeMm).z;
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
