import { median, quantile } from '../../../geometry/index.ts';
import { type Chain, placesAlong } from './chains.ts';

/** What a line is measured on, in the positive's sense; places in the chain's frame, lengths mm. */
export interface LineSurface {
  /** Height of the face that carries the line; NaN without data. */
  own(x: number, y: number): number;
  /** Height of the design under it, as the other face shows it; NaN where that is not known. */
  design(x: number, y: number): number;
  readonly pitchMm: number;
}

/** A place on the line's middle: along and aside of the chain's direction from its centre, mm. */
export interface CourseNode {
  readonly along: number;
  readonly aside: number;
  /** Whether the line was seen there; else the place is interpolated. */
  readonly seen: boolean;
}

export interface LineCourse {
  readonly nodes: readonly CourseNode[];
  readonly spacingMm: number;
}

export const courseDefaults = {
  spacingMm: 0.75,
  /** Heights are averaged along the line by so much to either side. */
  halfWindowMm: 0.6,
  /** How far aside of the chain's cells the middle is looked for. */
  reachMm: 0.6,
  /** Share of the heights across that lie at the ground's height or below. */
  ground: 0.3,
  /** A node is seen where its crest has this share of the usual one. */
  seen: 0.3,
};

/**
 * The middle of a line at even steps: round about the chain's own cells (medians over 1.2 mm), the place at which the mean height
 * along ±0.6 mm is highest (`sign` 1) or lowest (−1), `widthMm` being about its width there, as centroid of what exceeds half of it.
 */
export function lineCourse(
  surface: LineSurface,
  chain: Chain,
  grid: { readonly width: number; readonly pitch: number; readonly left: number; readonly top: number },
  sign: 1 | -1,
  widthMm: number,
  options = courseDefaults,
): LineCourse {
  const points = placesAlong(grid, chain);
  const from = Math.min(...points.map(([u]) => u));
  const to = Math.max(...points.map(([u]) => u));
  const count = Math.max(4, Math.round((to - from) / options.spacingMm));
  const spacingMm = Math.max(1e-6, (to - from) / count);
  const rough = Array.from({ length: count + 1 }, (_, k) => {
    const along = from + k * spacingMm;
    const near = points.filter(([u]) => Math.abs(u - along) < 1.2).map(([, v]) => v);
    return { along, aside: near.length > 0 ? median(near) : Number.NaN };
  });
  fillGaps(rough);
  const crests = rough.map((node, k) =>
    crestNear(surface, chain, node, slopeAt(rough, k, spacingMm), sign, widthMm, options),
  );
  const usual = median(crests.map(({ height }) => height).filter((height) => height > 0)) || 0;
  const nodes = crests.map(({ height, aside }, k) => {
    const seen = usual > 0 && height > options.seen * usual;
    return { along: rough[k].along, aside: seen ? aside : Number.NaN, seen };
  });
  fillGaps(nodes);
  return { nodes, spacingMm };
}

/** Change of `aside` per mm along, over two nodes to either side. */
export function slopeAt(nodes: readonly { readonly aside: number }[], k: number, spacingMm: number): number {
  const a = Math.max(0, k - 2);
  const b = Math.min(nodes.length - 1, k + 2);
  return b > a ? (nodes[b].aside - nodes[a].aside) / ((b - a) * spacingMm) : 0;
}

/** Where a place so far along and aside lies in the chain's frame. */
export const placeOnLine = ({ x, y, ux, uy }: Chain, along: number, aside: number): [number, number] => [
  x + along * ux - aside * uy,
  y + along * uy + aside * ux,
];

function crestNear(
  surface: LineSurface,
  chain: Chain,
  node: { readonly along: number; readonly aside: number },
  slope: number,
  sign: 1 | -1,
  widthMm: number,
  { halfWindowMm, reachMm, ground }: typeof courseDefaults,
): { height: number; aside: number } {
  const { pitchMm } = surface;
  const stepMm = pitchMm / 2;
  const near = Math.ceil(Math.max(reachMm, 3 * pitchMm) / stepMm);
  const half = Math.max(near, Math.ceil((widthMm + 0.2) / stepMm));
  const steps = Math.max(1, Math.round(halfWindowMm / pitchMm));
  const mean = new Float64Array(2 * half + 1);
  for (let t = -half; t <= half; t++) {
    let [sum, n] = [0, 0];
    for (let s = -steps; s <= steps; s++) {
      const u = (s * halfWindowMm) / steps;
      const [x, y] = placeOnLine(chain, node.along + u, node.aside + slope * u + t * stepMm);
      const value = heightOver(surface, x, y);
      if (Number.isNaN(value)) continue;
      sum += sign * value;
      n++;
    }
    mean[t + half] = n > 0 ? sum / n : Number.NaN;
  }
  return centroid(mean, { half, near, stepMm, aside: node.aside, ground });
}

/** Own height over the design where that is known, else the own height. */
function heightOver(surface: LineSurface, x: number, y: number): number {
  const design = surface.design(x, y);
  const own = surface.own(x, y);
  return Number.isNaN(design) ? own : own - design;
}

interface Across {
  /** Steps looked at to either side, and those within which the crest must lie. */
  readonly half: number;
  readonly near: number;
  readonly stepMm: number;
  readonly aside: number;
  readonly ground: number;
}

/** Height of the highest near place over the ground (a quantile), and the centroid of what lies above half of it. */
function centroid(
  mean: Float64Array,
  { half, near, stepMm, aside, ground }: Across,
): { height: number; aside: number } {
  const finite = mean.filter((value) => !Number.isNaN(value));
  if (finite.length < half) return { height: Number.NaN, aside };
  const base = quantile(finite, ground);
  let best = -1;
  for (let k = half - near + 1; k < half + near; k++)
    if (best < 0 || mean[k] > mean[best]) if (!Number.isNaN(mean[k])) best = k;
  const height = mean[best] - base;
  if (!(height > 0)) return { height: 0, aside };
  let [sum, weight] = [0, 0];
  for (const way of [-1, 1])
    for (let k = way === 1 ? best : best - 1; k >= 0 && k < mean.length; k += way) {
      const over = mean[k] - base - height / 2;
      if (!(over > 0)) break;
      sum += over * (k - half);
      weight += over;
    }
  return { height, aside: aside + (weight > 0 ? (sum / weight) * stepMm : (best - half) * stepMm) };
}

/** Straight between the nodes that have a place; the nearest one beyond the ends. */
function fillGaps(nodes: { aside: number }[]): void {
  const known = nodes.map((_, k) => k).filter((k) => !Number.isNaN(nodes[k].aside));
  nodes.forEach((node, k) => {
    if (!Number.isNaN(node.aside)) return;
    const before = known.filter((j) => j < k).at(-1);
    const after = known.find((j) => j > k);
    if (before === undefined && after === undefined) node.aside = 0;
    else if (before === undefined || after === undefined) node.aside = nodes[(before ?? after) as number].aside;
    else
      node.aside = nodes[before].aside + ((nodes[after].aside - nodes[before].aside) * (k - before)) / (after - before);
  });
}
