import { type FlowPatches, type FlowRounds, flowRounds } from '../../kernels/index.ts';
import { flowRoundsPlainly } from './flowPlainly.ts';
import type { Place } from './patches.ts';

/** What displacements say of one scatter σ: log pseudo-likelihood (natural), and each patch's part in the flow. */
export interface ScatterFit {
  readonly sigmaMm: number;
  readonly logLikelihood: number;
  readonly each: Float64Array;
  /** Leave-one-out remainders, mm, x and y in turn, and the probability that the patch is not an outlier. */
  readonly left: Float64Array;
  readonly member: Float64Array;
  readonly epsilon: number;
}

/** What all places have in common: one smooth flow, and the window in which they were looked for. */
export interface FlowOptions {
  readonly sizeMm: number;
  /** Area over which an outlier's place is uniform, mm². */
  readonly windowMm2: number;
  /** Further error of every place, mm (1 σ): point spacing. */
  readonly spacingMm: number;
  /** Greatest degree of the smooth flow. */
  readonly degree: number;
}

/** How many of a lot's places lie anywhere. */
export interface Strays {
  /** Share of outliers allowed for, before the data are seen. */
  readonly outliers: number;
  /** … with the weight of so many patches. */
  readonly outlierWeight: number;
  /** Patches that are clear on both and found nowhere: outliers beyond doubt. */
  readonly absent: number;
}

export type ScatterOptions = FlowOptions & Strays;

/** Places that scatter alike, by their indices. */
export interface Lot extends Strays {
  readonly sigmaMm: number;
  readonly of: readonly number[];
}

/** All places as one lot: `lotsFit`. */
export const scatterFit = (
  patches: readonly Place[],
  sigmaMm: number,
  options: ScatterOptions,
  errorScale = 1,
): ScatterFit => lotsFit(patches, [{ ...options, sigmaMm, of: [...patches.keys()] }], options, errorScale);

/**
 * Log pseudo-likelihood of the patches' shifts under a smooth flow (polynomial of the place) and a scatter σ of their lot:
 *
 *   dᵢ = f(xᵢ) + N(0, Σᵢ + (σ² + s²) I) with probability (1 − qᵢ) (1 − ε), else uniform over the window of the search;
 *
 * qᵢ is the patch's own doubt, ε the lot's share of outliers among what was matched rightly;
 * each patch predicted by all others (leave one out through the hat matrix), ε of each lot from the members themselves. Summed over
 * patches, nat. EM. `errorScale`: how many times as large the errors of the places are as worked out; nobody knows them better. Every
 * patch is in one lot; σ and ε of the answer are the first lot's.
 */
export function lotsFit(
  patches: readonly Place[],
  lots: readonly Lot[],
  options: FlowOptions,
  errorScale = 1,
): ScatterFit {
  const given = laidOut(patches, lots, options, errorScale);
  const flow = flowRounds(given) ?? flowRoundsPlainly(given);
  return scatterOf(
    flow,
    lots,
    options.windowMm2,
    patches.map(({ doubt }) => doubt),
  );
}

/** The fit by rounds of the kernel, or of its referee. */
export function scatterOf(
  flow: FlowRounds,
  lots: readonly Lot[],
  windowMm2: number,
  doubts: readonly number[],
): ScatterFit {
  const { member, left } = flow;
  member.fill(1);
  const each = new Float64Array(member.length);
  const epsilons = lots.map(({ outliers }) => outliers);
  for (let round = 0; round < 12; round++) {
    if (!flow.round()) break;
    lots.forEach((lot, k) => {
      epsilons[k] = weighedRound(flow, lot, epsilons[k], windowMm2, doubts, each);
    });
  }
  const logLikelihood = lots.reduce(
    (sum, lot, k) => sum + priorOf(lot, epsilons[k]) + lot.absent * Math.log(epsilons[k] / windowMm2),
    each.reduce((sum, value) => sum + value, 0),
  );
  const [{ sigmaMm }] = lots;
  return { sigmaMm, logLikelihood, each, left: left.slice(), member: member.slice(), epsilon: epsilons[0] };
}

/** Likelihood and membership of each of the lot's places after a round, and the share of outliers that follows. */
function weighedRound(
  { member, square, determinant }: FlowRounds,
  { of, outliers, outlierWeight, absent }: Lot,
  epsilon: number,
  windowMm2: number,
  doubts: readonly number[],
  each: Float64Array,
): number {
  let [outsiders, sound] = [absent, absent];
  for (const i of of) {
    const density = Math.exp(-0.5 * square[i]) / (2 * Math.PI * Math.sqrt(determinant[i]));
    const inside = (1 - doubts[i]) * (1 - epsilon) * density;
    const outside = ((1 - doubts[i]) * epsilon) / windowMm2;
    const all = inside + outside + doubts[i] / windowMm2;
    each[i] = Math.log(all);
    // The first rounds harden slowly, so that the flow is not led by the outliers.
    member[i] = inside / all;
    outsiders += outside / all;
    sound += (inside + outside) / all;
  }
  return (outsiders + outlierWeight * outliers) / (sound + outlierWeight);
}

/** ln of the prior of a share of outliers, a beta law but for its constant. */
const priorOf = ({ outliers, outlierWeight }: Strays, epsilon: number): number =>
  outlierWeight * (outliers * Math.log(epsilon / outliers) + (1 - outliers) * Math.log((1 - epsilon) / (1 - outliers)));

function laidOut(
  patches: readonly Place[],
  lots: readonly Lot[],
  options: FlowOptions,
  errorScale: number,
): FlowPatches {
  const count = ((options.degree + 1) * (options.degree + 2)) / 2;
  const basis = new Float64Array(count * patches.length);
  const shifts = new Float64Array(2 * patches.length);
  patches.forEach((patch, i) => {
    basis.set(terms(patch, options), i * count);
    shifts[2 * i] = patch.dx;
    shifts[2 * i + 1] = patch.dy;
  });
  return { terms: count, basis, noise: noiseOf(patches, lots, options.spacingMm, errorScale), shifts };
}

function terms({ x, y }: Place, { sizeMm, degree }: FlowOptions): Float64Array {
  const out = new Float64Array(((degree + 1) * (degree + 2)) / 2);
  for (let p = 0, k = 0; p <= degree; p++)
    for (let q = 0; p + q <= degree; q++, k++) out[k] = ((2 * x) / sizeMm) ** p * ((2 * y) / sizeMm) ** q;
  return out;
}

/** Covariance of each patch's shift but for the flow, mm²: xx, xy, yy of one after another. */
function noiseOf(patches: readonly Place[], lots: readonly Lot[], spacingMm: number, errorScale: number): Float64Array {
  const k = errorScale ** 2;
  const out = new Float64Array(3 * patches.length);
  for (const { sigmaMm, of } of lots) {
    const v = sigmaMm ** 2 + k * spacingMm ** 2;
    for (const i of of) {
      const { covariance } = patches[i];
      out[3 * i] = k * covariance[0] + v;
      out[3 * i + 1] = k * covariance[1];
      out[3 * i + 2] = k * covariance[2] + v;
    }
  }
  return out;
}
