import { quantile } from '../../geometry/index.ts';
import { type PlaneMotion, unpackPlaces } from '../pairPlaces.ts';
import { inOrder } from './inOrder.ts';

export const commonShiftDefaults = {
  /** Places of two pairs are one place where they lie within this share of the face's size: less than two of one pair lie apart. */
  oneWithin: 1 / 28,
  /** Shifts are weighed as directions from this length on, mm, and are no shifts of a place beyond the other. */
  usualMm: 0.01,
  mostMm: 0.3,
  /** Pairs across a cut that are looked at, at most, and of one object. */
  mostPairs: 40,
  mostOfOne: 8,
};

/** The places of one verified pair on the plane that all of a set share. Nodes: witnesses. */
export interface ShiftField {
  readonly a: number;
  readonly b: number;
  readonly sizeMm: number;
  /** x, y, and the shift of b's against a's: four numbers a place. */
  readonly at: readonly number[];
  /** Of each place, whether it lies in the outer half of them: the legend, more or less. */
  readonly outer: readonly boolean[];
}

/** A verified pair of the objects a and b, its places as `packPlaces` writes them, and the witnesses that the two are. */
export interface PlacedPair {
  readonly a: string;
  readonly b: string;
  readonly nodes: readonly [number, number];
  readonly places: string;
}

/**
 * The pairs of a set on one plane: that of one object, to which the others are brought along a tree of the pairs with most places. Pairs that
 * do not hang on it are left out. Most places first.
 */
export function onOnePlane(pairs: readonly PlacedPair[]): ShiftField[] {
  const read = pairs.map((pair) => ({ ...pair, ...unpackPlaces(pair.places) }));
  read.sort((x, y) => y.at.length - x.at.length || inOrder(x.a, y.a) || inOrder(x.b, y.b));
  const frame = new Map<string, PlaneMotion>();
  if (read.length > 0) frame.set(read[0].a, [1, 0, 0, 1, 0, 0]);
  const reach = ({ a, b, map }: (typeof read)[number]): boolean => {
    const [here, there] = [frame.get(a), frame.get(b)];
    if (here && !there) frame.set(b, after(here, map));
    else if (there && !here) frame.set(a, after(there, inverse(map)));
    else return false;
    return true;
  };
  while (read.some(reach));
  return read.flatMap(({ a, nodes, sizeMm, at }): ShiftField[] => {
    const motion = frame.get(a);
    if (!motion) return [];
    const placed = moved(motion, at);
    return [{ a: nodes[0], b: nodes[1], sizeMm, at: placed, outer: outerHalf(placed) }];
  });
}

function outerHalf(at: readonly number[]): boolean[] {
  const n = at.length / 4;
  const places = Array.from({ length: n }, (_, i) => [at[4 * i], at[4 * i + 1]]);
  const [x, y] = [0, 1].map((k) => places.reduce((sum, place) => sum + place[k], 0) / n);
  const radii = places.map((place) => Math.hypot(place[0] - x, place[1] - y));
  const middle = [...radii].sort((a, b) => a - b)[n >> 1];
  return radii.map((radius) => radius >= middle);
}

/** `outer` after `inner`. */
const after = ([a, b, c, d, x, y]: PlaneMotion, [p, q, r, s, u, v]: PlaneMotion): PlaneMotion => [
  a * p + b * r,
  a * q + b * s,
  c * p + d * r,
  c * q + d * s,
  a * u + b * v + x,
  c * u + d * v + y,
];

function inverse([a, b, c, d, x, y]: PlaneMotion): PlaneMotion {
  const det = a * d - b * c;
  const [p, q, r, s] = [d / det, -b / det, -c / det, a / det];
  return [p, q, r, s, -(p * x + q * y), -(r * x + s * y)];
}

function moved([a, b, c, d, x, y]: PlaneMotion, at: readonly number[]): number[] {
  const out: number[] = [];
  for (let i = 0; i < at.length; i += 4)
    out.push(
      a * at[i] + b * at[i + 1] + x,
      c * at[i] + d * at[i + 1] + y,
      a * at[i + 2] + b * at[i + 3],
      c * at[i + 2] + d * at[i + 3],
    );
  return out;
}

/** How far shifts agree: sum over the places that two pairs both see, and their number, in the inner and in the outer half of a face. */
export interface Agreeing {
  readonly sum: readonly [inner: number, outer: number];
  readonly places: readonly [inner: number, outer: number];
  /** r·s of each such place, mm²: the square of what is common to both. */
  readonly products: readonly number[];
}

/**
 * Σ u·v over the places of two pairs that lie on one another, u = r / √(r² + r₀²) the shift as a direction, so that one place far off
 * decides nothing: 0 on average where the shifts are unrelated, towards 1 a place where they are the same.
 */
export function agreeing(f: ShiftField, g: ShiftField, options = commonShiftDefaults): Agreeing {
  const within = options.oneWithin * Math.max(f.sizeMm, g.sizeMm);
  const sum: [number, number] = [0, 0];
  const places: [number, number] = [0, 0];
  const products: number[] = [];
  for (let i = 0; i < f.at.length; i += 4) {
    const j = nearest(g.at, f.at[i], f.at[i + 1], within);
    if (j < 0) continue;
    const [ux, uy, vx, vy] = [f.at[i + 2], f.at[i + 3], g.at[j + 2], g.at[j + 3]];
    const [u, v] = [Math.hypot(ux, uy), Math.hypot(vx, vy)];
    if (Math.max(u, v) > options.mostMm) continue;
    const half = f.outer[i / 4] ? 1 : 0;
    const product = ux * vx + uy * vy;
    products.push(product);
    sum[half] += product / (Math.hypot(u, options.usualMm) * Math.hypot(v, options.usualMm));
    places[half]++;
  }
  return { sum, places, products };
}

function nearest(at: readonly number[], x: number, y: number, within: number): number {
  let [best, least] = [-1, within * within];
  for (let j = 0; j < at.length; j += 4) {
    const d = (at[j] - x) ** 2 + (at[j + 1] - y) ** 2;
    if (d < least) [best, least] = [j, d];
  }
  return best;
}

/** How far the shifts across a cut are common to all pairs: of pairs without an object in common, and of pairs with one. */
export interface CommonShifts {
  readonly apart: Agreeing;
  readonly sharing: Agreeing;
}

/**
 * The shifts of the pairs across a cut, held against one another, all told from the one side to the other. Under one matrix a shift is the sum of what
 * the two objects suffered: pairs without an object in common agree by chance alone, pairs with one by what that one suffered. Under two matrices all
 * carry the same displacement of the one drawing against the other. `agree`: `agreeing`, or what remembers it.
 */
export function commonShifts(
  fields: readonly ShiftField[],
  onSide: (node: number) => boolean,
  agree: (f: ShiftField, g: ShiftField) => Agreeing = agreeing,
  options = commonShiftDefaults,
): CommonShifts {
  const across = fields.filter(({ a, b }) => onSide(a) !== onSide(b));
  const total = { apart: nothing(), sharing: nothing() };
  const looked = spread(across, options);
  looked.forEach((f, k) => {
    for (const g of looked.slice(k + 1)) {
      const { sum, places, products } = agree(f, g);
      const common = f.a === g.a || f.a === g.b || f.b === g.a || f.b === g.b;
      const kind = common ? total.sharing : total.apart;
      const sign = onSide(f.a) === onSide(g.a) ? 1 : -1;
      for (const half of [0, 1]) {
        kind.sum[half] += sign * sum[half];
        kind.places[half] += places[half];
      }
      for (const product of products) kind.products.push(sign * product);
    }
  });
  return total;
}

const nothing = (): { sum: [number, number]; places: [number, number]; products: number[] } => ({
  sum: [0, 0],
  places: [0, 0],
  products: [],
});

/** Length of the shift that is common to the pairs, mm: the root of the median product; 0 where that is negative. */
export const commonMm = ({ products }: Agreeing): number => Math.sqrt(Math.max(0, quantile(products, 0.5)));

/** The pairs with most places, not too many of one object. */
function spread(fields: readonly ShiftField[], { mostPairs, mostOfOne }: typeof commonShiftDefaults): ShiftField[] {
  const used = new Map<number, number>();
  const out: ShiftField[] = [];
  for (const field of fields) {
    const [i, j] = [used.get(field.a) ?? 0, used.get(field.b) ?? 0];
    if (out.length === mostPairs) break;
    if (i >= mostOfOne && j >= mostOfOne) continue;
    used.set(field.a, i + 1);
    used.set(field.b, j + 1);
    out.push(field);
  }
  return out;
}
