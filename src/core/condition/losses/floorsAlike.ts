import { solveDefinite, xOf, yOf } from '../../geometry/index.ts';
import type { WearRelief } from '../relief/relief.ts';
import type { FloorsInCommon } from '../types.ts';
import { addLeft, alikeOf, nothingLeft, roughOf, sureAlike } from './alike.ts';

export const floorsAlikeDefaults = {
  /** Places of a floor so far from one another count as drawn by chance each for itself, mm, and cells, as those of an edge do. */
  independentMm: 0.5,
  independentCells: 2.8,
};

type Heights = Readonly<Float32Array>;

/**
 * Whether the floors of losses are one broken surface. What a matrix makes beside its edge slopes or is hollow alike on all its impressions, and smooth; so of
 * each floor, on either face, a second-order form and what depends on the distance from the edge are taken off, and what is left of
 * the two is correlated over all losses together. Null without a loss.
 */
export function floorsAlike(
  relief: Pick<WearRelief, 'reference' | 'fromEdge'>,
  losses: readonly Int32Array[],
  [a, b]: readonly [Heights, Heights],
  { independentMm, independentCells } = floorsAlikeDefaults,
): FloorsInCommon | null {
  if (losses.length === 0) return null;
  const { pitch } = relief.reference;
  const left = nothingLeft();
  for (const cells of losses) {
    const rows = formRows(relief, cells);
    addLeft(left, beyondForm(rows, cells, a), beyondForm(rows, cells, b));
  }
  const places = (left.count * pitch ** 2) / Math.max(independentMm, independentCells * pitch) ** 2;
  return { sigma: sureAlike(left, places, terms * losses.length - 1), alike: alikeOf(left), roughMm: roughOf(left) };
}

/** 1, x, y, x², xy, y² about the loss's middle, in its own reach, and the distance from the edge with its square. */
const terms = 8;

function formRows({ reference, fromEdge }: Pick<WearRelief, 'reference' | 'fromEdge'>, cells: Int32Array) {
  const x = Float64Array.from(cells, (i) => xOf(reference, i % reference.width));
  const y = Float64Array.from(cells, (i) => yOf(reference, Math.floor(i / reference.width)));
  const [u, v] = [x, y].map(scaled);
  const inward = scaled(Float64Array.from(cells, (i) => fromEdge[i]));
  return Array.from(cells, (_, k) => [1, u[k], v[k], u[k] ** 2, u[k] * v[k], v[k] ** 2, inward[k], inward[k] ** 2]);
}

/** From −1 to 1. */
function scaled(values: Float64Array): Float64Array {
  const [least, most] = values.reduce(([l, m], v) => [Math.min(l, v), Math.max(m, v)], [Infinity, -Infinity]);
  return values.map((v) => (2 * (v - least)) / (most - least || 1) - 1);
}

/** Heights less the form that fits them best (least squares), mm; none where there are too few places for it. */
function beyondForm(rows: readonly (readonly number[])[], cells: Int32Array, heights: Heights): Float64Array {
  const h = new Float64Array(terms * terms);
  const g = new Float64Array(terms);
  rows.forEach((row, k) => {
    for (let r = 0; r < terms; r++) {
      g[r] += row[r] * heights[cells[k]];
      for (let c = 0; c < terms; c++) h[terms * r + c] += row[r] * row[c];
    }
  });
  const form = solveDefinite(h, g, terms);
  if (!form) return new Float64Array(cells.length);
  return Float64Array.from(cells, (i, k) => heights[i] - rows[k].reduce((sum, value, r) => sum + value * form[r], 0));
}
