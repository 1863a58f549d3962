import {
  distanceTransform,
  gaussianFilter,
  type HeightGrid,
  median,
  quantile,
  sampleGrid,
  withHeights,
  xOf,
  yOf,
} from '../../geometry/index.ts';
import type { PlacedFragment } from './placeFragments.ts';

/** How the edges of two fragments meet. Lengths in mm. */
export interface MeetingEdge {
  readonly one: string;
  readonly two: string;
  /** Length along which they face one another within `reachMm`. */
  readonly lengthMm: number;
  /** Between the edges: middle, and what nine of ten places have less than; below zero where they lie over one another. */
  readonly gapMm: number;
  readonly gap90Mm: number;
  /** How much higher the second stands beyond the gap, middle of all places. */
  readonly stepMm: number;
}

export const meetingDefaults = {
  /** Edges further apart do not meet. */
  reachMm: 3,
  /** Facing: normals more than so much against one another (cosine). */
  facing: -0.5,
  /** So far inside the edges heights are taken, where the scan's own rim no longer tells. */
  insideMm: 0.5,
  /** Shorter than this, two edges touch and do not meet. */
  leastLengthMm: 3,
} as const;

/** One place of a fragment's edge. */
interface EdgePlace {
  readonly x: number;
  readonly y: number;
  /** Outward normal. */
  readonly nx: number;
  readonly ny: number;
  /** Length of edge that it stands for: pitch / max(|nx|, |ny|), exact for a straight edge of any direction. */
  readonly lengthMm: number;
}

/**
 * The stretches along which the edges of two placed fragments face one another: for each place of the first's edge the nearest of
 * the second's within reach whose outward normal points back. The gap is the distance of the two, less one cell, negative
 * where the place lies inside the second. Null where less than `leastLengthMm` meets.
 */
export function meetingEdge(
  one: PlacedFragment,
  two: PlacedFragment,
  options: typeof meetingDefaults = meetingDefaults,
): MeetingEdge | null {
  const [edgeOne, edgeTwo] = [edgeOf(one.surface), edgeOf(two.surface)];
  const inTwo = distanceTransform(two.surface.mask, two.surface.width);
  const { pitch } = one.surface;
  const gaps: number[] = [];
  const steps: number[] = [];
  let lengthMm = 0;
  for (const a of edgeOne) {
    const b = nearestFacing(a, edgeTwo, options);
    if (!b) continue;
    const apart = Math.hypot(b.x - a.x, b.y - a.y);
    gaps.push(cellOf(two.surface, inTwo, a.x, a.y) > 0 ? -apart : Math.max(0, apart - pitch));
    lengthMm += a.lengthMm;
    const step = heightInside(two.surface, b, options.insideMm) - heightInside(one.surface, a, options.insideMm);
    if (!Number.isNaN(step)) steps.push(step);
  }
  if (lengthMm < options.leastLengthMm) return null;
  return {
    ...{ one: one.name, two: two.name, lengthMm, gapMm: median(gaps), gap90Mm: quantile(gaps, 0.9) },
    stepMm: steps.length > 0 ? median(steps) : Number.NaN,
  };
}

/** All pairs of fragments that meet. */
export const meetingEdges = (fragments: readonly PlacedFragment[]): MeetingEdge[] =>
  fragments.flatMap((two, k) =>
    fragments.slice(0, k).flatMap((one) => {
      const edge = meetingEdge(one, two);
      return edge ? [edge] : [];
    }),
  );

/** The places of the edge: cells with a neighbour outside; normals down the mask smoothed over 1.5 mm. Holes have edges too. */
function edgeOf(whole: HeightGrid): EdgePlace[] {
  const { width, height, mask } = whole;
  const full = new Uint8Array(mask.length).fill(1);
  const cover = gaussianFilter(withHeights(whole, Float32Array.from(mask), full), 1.5).z;
  const places: EdgePlace[] = [];
  for (let row = 1; row < height - 1; row++)
    for (let col = 1; col < width - 1; col++) {
      const i = row * width + col;
      if (!mask[i] || (mask[i - 1] && mask[i + 1] && mask[i - width] && mask[i + width])) continue;
      const [gx, gy] = [cover[i + 1] - cover[i - 1], cover[i - width] - cover[i + width]];
      const steep = Math.hypot(gx, gy);
      if (steep < 1e-6) continue;
      const [nx, ny] = [-gx / steep, -gy / steep];
      const lengthMm = whole.pitch / Math.max(Math.abs(nx), Math.abs(ny));
      places.push({ x: xOf(whole, col), y: yOf(whole, row), nx, ny, lengthMm });
    }
  return places;
}

function nearestFacing(a: EdgePlace, edge: readonly EdgePlace[], { reachMm, facing }: typeof meetingDefaults) {
  let best: EdgePlace | null = null;
  let least = reachMm ** 2;
  for (const b of edge) {
    const squared = (b.x - a.x) ** 2 + (b.y - a.y) ** 2;
    if (squared >= least || a.nx * b.nx + a.ny * b.ny > facing) continue;
    best = b;
    least = squared;
  }
  return best;
}

const heightInside = (grid: HeightGrid, { x, y, nx, ny }: EdgePlace, insideMm: number): number =>
  sampleGrid(grid, x - insideMm * nx, y - insideMm * ny);

function cellOf(grid: HeightGrid, values: Float32Array, x: number, y: number): number {
  const [col, row] = [Math.round((x - grid.left) / grid.pitch), Math.round((grid.top - y) / grid.pitch)];
  return values[row * grid.width + col];
}
