import {
  bandPass,
  erode,
  type HeightGrid,
  median,
  outlineArea,
  quantile,
  type Vec2,
  withHeights,
  xOf,
  yOf,
} from '../geometry/index.ts';
import { hullOf } from './outline.ts';
import { dominantPlane, heightOver, type Plane } from './plane.ts';
import { largestRegion } from './region.ts';

/** An object that lies on a table (parchment, a turntable, a sheet) which was scanned along with it. */
export interface OnTable {
  /** Of the table, in the grid's frame. */
  readonly plane: Plane;
  /** What stands higher over that plane than this is not the table, in the grid's unit. */
  readonly clearance: number;
  /** 1 for the cells of the object. */
  readonly object: Uint8Array;
}

export const tableDefaults = {
  /** A table is even within this share of the view's size, … */
  even: 0.005,
  /** … fills so much of the view, and the object no less than this. */
  leastTable: 0.25,
  /** … or is so much of what lies within `frame` cells of its edge. */
  leastFrame: 0.6,
  frame: 4,
  leastObject: 0.012,
  /** The object fills so much of its convex hull: a lip or a border round a field is a ring. */
  solid: 0.65,
  /**
   * It is a slab: its lower sixth stands so high, as a share of its middle height; where it ends the table begins, for such a
   * share of its rim that is not the end of the data; its engraving in its own band is so many times what the table has there.
   */
  asked: { slab: 0.84, surrounded: 0.84, plainer: 3 },
  /** … and less of a piece that stands so high, as a share of its size: motifs that do are peaks. */
  high: 0.18,
  askedHigh: { slab: 0.65, surrounded: 0.7, plainer: 2 },
  bandFrom: 1 / 60,
  bandTo: 1 / 16,
};

/**
 * Looks for a slab on a table: an even plane that most cells lie on, or most of those along the edge of the view; over it the
 * largest piece, high from its rim on, with the table round it and far more relief on it than the table has. A motif on the
 * field of a face is no slab: the legend round it is as rough, or it bulges from the field. Null where there is none.
 */
export function objectOnTable(grid: HeightGrid, options = tableDefaults): OnTable | null {
  const frame = erode(grid.mask, grid.width, options.frame);
  const along = withHeights(
    grid,
    grid.z,
    grid.mask.map((m, i) => (m && !frame[i] ? 1 : 0)),
  );
  return slabOver(grid, grid, options.leastTable, options) ?? slabOver(grid, along, options.leastFrame, options);
}

/** The slab over the plane on which at least `least` of the cells of `lying` lie. */
function slabOver(grid: HeightGrid, lying: HeightGrid, least: number, options: typeof tableDefaults): OnTable | null {
  const seen = countOf(grid.mask);
  const even = options.even * Math.sqrt(seen) * grid.pitch;
  const plane = dominantPlane(lying, even);
  if (!plane) return null;
  const { clearance, share } = evenness(heightsOver(lying, plane), even);
  if (share < least) return null;
  const over = heightsOver(grid, plane);
  const object = highestPiece(over, clearance);
  if (countOf(object) < Math.max(100, options.leastObject * seen)) return null;
  return isSlab(over, object, clearance, options) ? { plane, clearance, object } : null;
}

function isSlab(over: HeightGrid, object: Uint8Array, clearance: number, options: typeof tableDefaults): boolean {
  if (solidity(over, object) < options.solid) return false;
  const slab = slabness(over, object);
  const surrounded = surroundedShare(over, object, clearance);
  const high = highness(over, object) >= options.high;
  const asked = [options.asked, ...(high ? [options.askedHigh] : [])].filter(
    (least) => slab >= least.slab && surrounded >= least.surrounded,
  );
  return asked.length > 0 && plainer(over, object, options) >= Math.min(...asked.map((least) => least.plainer));
}

export function countOf(mask: Uint8Array): number {
  let sum = 0;
  for (let i = 0; i < mask.length; i++) sum += mask[i];
  return sum;
}

function heightsOver(grid: HeightGrid, plane: Plane): HeightGrid {
  const z = new Float32Array(grid.z.length);
  for (let row = 0, i = 0; row < grid.height; row++)
    for (let col = 0; col < grid.width; col++, i++)
      if (grid.mask[i]) z[i] = grid.z[i] - heightOver(plane, xOf(grid, col), yOf(grid, row));
  return withHeights(grid, z);
}

/** How far the table's own waves reach, and its share of the view. */
function evenness({ z, mask }: HeightGrid, even: number): { clearance: number; share: number } {
  const near = z.filter((value, i) => mask[i] === 1 && Math.abs(value) < 2 * even).map(Math.abs);
  const sigma = 1.4826 * median(near);
  const clearance = Math.min(2 * even, Math.max(0.4 * even, 5 * sigma));
  return { clearance, share: near.filter((value) => value < clearance).length / Math.max(1, countOf(mask)) };
}

/** The largest piece over the clearance; its cells are joined whatever step lies between them. */
function highestPiece(over: HeightGrid, clearance: number): Uint8Array {
  const high = over.mask.map((m, i) => (m && over.z[i] > clearance ? 1 : 0));
  return largestRegion(withHeights(over, over.z, high), Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY);
}

/** Middle height of the object over the table, as a share of its size. */
function highness(over: HeightGrid, object: Uint8Array): number {
  const heights = over.z.filter((_, i) => object[i] === 1);
  return median(heights) / (Math.sqrt(heights.length) * over.pitch);
}

/** Share of the object's convex hull that it fills. */
function solidity(over: HeightGrid, object: Uint8Array): number {
  const hull = hullOf(over, object);
  const corners = Array.from({ length: hull.length / 2 }, (_, k): Vec2 => [hull[2 * k], hull[2 * k + 1]]);
  return (countOf(object) * over.pitch ** 2) / (outlineArea(corners) + over.pitch ** 2);
}

export function slabness(over: HeightGrid, object: Uint8Array): number {
  const inner = erode(object, over.width, 3);
  const heights = over.z.filter((_, i) => inner[i] === 1);
  return heights.length < 30 ? 0 : quantile(heights, 0.15) / median(heights);
}

/** Share of the cells with data three to five steps round the object that are the table's. */
export function surroundedShare(over: HeightGrid, object: Uint8Array, clearance: number): number {
  const outside = object.map((value) => 1 - value);
  const far = erode(outside, over.width, 5);
  const nearer = erode(outside, over.width, 2);
  let [data, table] = [0, 0];
  for (let i = 0; i < far.length; i++) {
    if (!nearer[i] || far[i] || !over.mask[i]) continue;
    data++;
    if (Math.abs(over.z[i]) <= clearance) table++;
  }
  return data === 0 ? 0 : table / data;
}

/** Mean relief on the object over that on all the rest, in the band of the object's engraving. */
export function plainer(over: HeightGrid, object: Uint8Array, options: typeof tableDefaults): number {
  const size = Math.sqrt(countOf(object)) * over.pitch;
  const rest = erode(
    over.mask.map((m, i) => (m && !object[i] ? 1 : 0)),
    over.width,
    4,
  );
  const inner = erode(object, over.width, 3);
  const mean = (region: Uint8Array, inside: Uint8Array): number => {
    const band = bandPass(withHeights(over, over.z, region), options.bandFrom * size, options.bandTo * size);
    const values = band.z.filter((_, i) => inside[i] === 1).map(Math.abs);
    return values.length < 30 ? Number.NaN : values.reduce((sum, value) => sum + value, 0) / values.length;
  };
  const [on, off] = [mean(object, inner), mean(rest, rest)];
  return Number.isNaN(on) ? 0 : on / (Number.isNaN(off) ? 0 : off);
}
