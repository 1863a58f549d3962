import { componentsOf, correlationAt, median, quantile } from '../../geometry/index.ts';
import { groundDefaults, heightOverGround } from '../relief/ground.ts';
import type { LossField } from '../relief/loss.ts';
import type { WearRelief } from '../relief/relief.ts';
import { ringAround } from '../relief/ringAround.ts';
import type { FloorsInCommon } from '../types.ts';
import { floorsAlike } from './floorsAlike.ts';

export const sharedLossDefaults = {
  /** Nothing that a matrix prints lies so far below the ground of the field, mm … */
  leastDepthMm: 0.1,
  /** … nor so many standard deviations of the pair's noise. */
  leastSigma: 3,
  /** What lies so many median deviations below the ground is no part of it. */
  belowGround: 5,
  /** Smaller than this, mm² and cells, an outline is no outline. */
  leastAreaMm2: 1,
  leastCells: 12,
  /** It comes so far in from the edge, mm: the slope of a rim is every impression's. */
  leastInMm: 1,
  /** Within the face it has an edge all round: so deep its floor lies below the least tenth of what is about it, too, within so many mm. */
  aroundMm: 0.7,
  /** Edge against edge: common cells over all cells of the two … */
  leastOverlap: 0.6,
  /** … and floor against floor: correlation of the two heights over the loss and a cell about it. */
  leastFloor: 0.75,
  /** Turns of the subject's losses by which chance is counted. */
  chanceTurns: 11,
};

/** A place where both faces lack the same piece. */
export interface SharedLoss {
  readonly cells: Int32Array;
  /** Common area over the area of both. */
  readonly overlap: number;
  /** Correlation of the two floors. */
  readonly floor: number;
  /** Reaches the edge of what is judged, within 1 mm. */
  readonly atEdge: boolean;
}

/** Losses that two positives share, and how many outlines would agree as well by chance. */
export interface SharedLosses {
  readonly losses: readonly SharedLoss[];
  /** Most outlines that agree when the subject's losses are laid on turned about the centre. */
  readonly byChance: number;
  /** Whether the floors of those at the edge are one broken surface; null where there are none. */
  readonly floors: FloorsInCommon | null;
}

/**
 * Losses that two positives share: parts of each face that lie below its own ground, where no matrix prints anything, compared
 * edge against edge (overlap of the outlines) and floor against floor (correlation of heights). The difference of two faces cannot
 * show them. What independent breaks share by chance is counted on the same two faces: the subject's losses turned about the centre.
 */
export function sharedLosses(relief: WearRelief, loss: LossField, options = sharedLossDefaults): SharedLosses {
  const { reference, subject, inside, noiseMm } = relief;
  const least = Math.max(options.leastDepthMm, options.leastSigma * noiseMm);
  // The ground must not sag into what is sought; nor may a form that follows the image lay bare what slopes away from it all round.
  const ground = { ...groundDefaults, below: options.belowGround };
  const heights = [
    heightOverGround(reference, loss.exposure, inside, ground),
    heightOverGround(subject, loss.exposure, inside, ground),
  ] as const;
  const seen = inside.map((value, i) => (value && reference.mask[i] && subject.mask[i] ? 1 : 0));
  const sunk = heights.map((height) => seen.map((value, i) => (value && height[i] < -least ? 1 : 0)));
  const own = outlinesOf(relief, sunk[0], options);
  if (own.length === 0) return { losses: [], byChance: 0, floors: null };
  const others = outlinesOf(relief, sunk[1], options);
  const hasEdge = ({ cells, atEdge }: SharedLoss): boolean =>
    atEdge || heights.every((height) => fallOf(relief, cells, height, options) > least);
  const losses = own.flatMap((cells) => sharedWith(relief, cells, others, heights, options)).filter(hasEdge);
  const atEdge = losses.filter((loss) => loss.atEdge).map(({ cells }) => cells);
  return {
    losses,
    byChance: losses.length > 0 ? mostByChance(reference, own, sunk[1], options) : 0,
    floors: floorsAlike(relief, atEdge, heights),
  };
}

/** Parts that hang together, are large enough and come far enough in. */
function outlinesOf(
  { reference, fromEdge }: WearRelief,
  cells: Uint8Array,
  options: typeof sharedLossDefaults,
): Int32Array[] {
  const { width, pitch } = reference;
  return componentsOf(cells, width).filter(
    (part) =>
      part.length >= options.leastCells &&
      part.length * pitch ** 2 >= options.leastAreaMm2 &&
      part.some((i) => fromEdge[i] * pitch >= options.leastInMm),
  );
}

function sharedWith(
  { reference, fromEdge }: WearRelief,
  cells: Int32Array,
  others: readonly Int32Array[],
  [a, b]: readonly [Float32Array, Float32Array],
  options: typeof sharedLossDefaults,
): SharedLoss[] {
  const mine = new Set(cells);
  // All of the other's outlines that lie on this one: a bridge a cell wide may part a loss in two.
  const touching = others.filter((part) => part.some((i) => mine.has(i)));
  const common = touching.reduce((sum, part) => sum + part.filter((i) => mine.has(i)).length, 0);
  const all = cells.length + touching.reduce((sum, part) => sum + part.length, 0) - common;
  const overlap = common / all;
  if (overlap < options.leastOverlap) return [];
  const floor = correlationAt(cells, a, b);
  if (floor === null || floor < options.leastFloor) return [];
  return [{ cells, overlap, floor, atEdge: cells.some((i) => fromEdge[i] * reference.pitch < 1) }];
}

/** How deep the floor lies below the least tenth of what is about it, mm: ground between tall forms runs out into the field, a loss does not. */
function fallOf(
  relief: WearRelief,
  cells: Int32Array,
  height: Float32Array,
  { aroundMm }: typeof sharedLossDefaults,
): number {
  const heightsAt = (list: Int32Array): Float32Array => Float32Array.from(list, (i) => height[i]);
  return quantile(heightsAt(ringAround(relief, cells, aroundMm)), 0.1) - median(heightsAt(cells));
}

/** Outlines covered by `leastOverlap` of the other's losses, the most over turns of these about the middle of the grid. */
function mostByChance(
  { width, height }: WearRelief['reference'],
  own: readonly Int32Array[],
  other: Uint8Array,
  { chanceTurns, leastOverlap }: typeof sharedLossDefaults,
): number {
  const [cx, cy] = [(width - 1) / 2, (height - 1) / 2];
  let most = 0;
  for (let k = 1; k <= chanceTurns; k++) {
    const angle = (2 * Math.PI * k) / (chanceTurns + 1);
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const covered = own.filter((cells) => {
      let count = 0;
      for (const i of cells) {
        const [x, y] = [(i % width) - cx, Math.floor(i / width) - cy];
        const [col, row] = [Math.round(cx + c * x - s * y), Math.round(cy + s * x + c * y)];
        if (col >= 0 && row >= 0 && col < width && row < height && other[row * width + col]) count++;
      }
      return count >= leastOverlap * cells.length;
    });
    most = Math.max(most, covered.length);
  }
  return most;
}
