import { gaussianFilter, type HeightGrid, median, withHeights } from '../../geometry/index.ts';
import { formRemoved } from '../filters/index.ts';
import type { StackedStrip } from './stack.ts';
import type { Strip } from './unroll.ts';

/** What judgement says of a witness against the reference: only like may be put together with like. */
export interface WitnessStanding {
  readonly name: string;
  /** The reference itself needs no finding. */
  readonly isReference?: boolean;
  readonly finding: 'supported' | 'against' | 'undecided' | null;
  readonly state: 'sameState' | 'subjectEarlier' | 'subjectLater' | 'cannotJudge' | null;
  /** Lowers or raises this witness's weight everywhere; 1 unless stated, 0 leaves it out. */
  readonly weight?: number;
}

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
 * or more, one that disagrees with the median of all is marked down by exp(−d²/4m²), d² its local mean square distance from
 * the median and m² the median's own, so that chips and cuts are not taken for letters. Weight = q² × the mark-down ×
 * the standing's own weight; heights are the weighted mean. Detail, not height, is put together, because levels of
 * different objects differ.
 *
 * Refused across different states, and for any witness whose finding is not "supported". The method is this project's own.
 */
export function compositeStrips(
  strips: readonly StackedStrip[],
  standings: readonly WitnessStanding[],
  options: CompositeOptions,
): Composite {
  const refusal = refusalOf(strips, standings);
  if (refusal) return refusal;
  const details = strips.map(({ strip }) => formRemoved(strip.grid, 2 * options.sizeMm));
  const middle = medianOf(details);
  const weights = details.map((detail, k) =>
    preservation(detail, middle, options.sizeMm, options.noiseMm?.[k] ?? 0, details.length > 2).map(
      (value) => value * (standings[k].weight ?? 1),
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
    caption: `Composite of ${names.length} witnesses (${parts}): no single object shows this.`,
  };
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
    if (state !== 'sameState') return refuse(name, `Whether ${name} shows the same state cannot be judged.`);
  }
  return null;
}

/** Median of the witnesses at each cell; 0 where none has data. */
function medianOf(details: readonly HeightGrid[]): Float32Array {
  const out = new Float32Array(details[0].z.length);
  const values: number[] = [];
  for (let i = 0; i < out.length; i++) {
    values.length = 0;
    for (const detail of details) if (detail.mask[i]) values.push(detail.z[i]);
    if (values.length > 0) out[i] = values.length === 1 ? values[0] : median(values);
  }
  return out;
}

function preservation(
  detail: HeightGrid,
  middle: Float32Array,
  sizeMm: number,
  noiseMm: number,
  compare: boolean,
): Float32Array {
  const local = (f: (i: number) => number): Float32Array => {
    const values = detail.z.map((_, i) => (detail.mask[i] ? f(i) : 0));
    return gaussianFilter(withHeights(detail, values), 2.5 * sizeMm).z;
  };
  const own = local((i) => detail.z[i] ** 2);
  const apart = compare ? local((i) => (detail.z[i] - middle[i]) ** 2) : null;
  const agreed = compare ? local((i) => middle[i] ** 2) : null;
  return own.map((square, i) => {
    if (!detail.mask[i]) return 0;
    const kept = Math.max(0, square - noiseMm * noiseMm);
    const doubt = apart && agreed ? Math.exp(-Math.min(20, apart[i] / Math.max(1e-9, 4 * agreed[i]))) : 1;
    return kept * kept * doubt + 1e-18;
  });
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
