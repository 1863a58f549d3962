import { type HeightGrid, median, sampleGrid, xOf, yOf } from '../../../geometry/index.ts';
import { type Chain, placesAlong } from './chains.ts';

/** Distance of the two sides, and how far aside it is looked, mm; places on either side from which the line's own way is taken. */
interface AcrossOptions {
  readonly field: { readonly besideMm: number };
  readonly farMm: number;
  readonly reach: number;
}

/** Heights over the mean of two sides: a row for each distance aside of a line, the line itself in the middle, a value for each of its cells; NaN without data, mm. */
export interface Contrasts {
  readonly aside: readonly number[];
  readonly besideMm: number;
  readonly rows: readonly Float64Array[];
}

export type Place = readonly [x: number, y: number];

export const placesOf = (grid: HeightGrid, { cells }: Chain): Place[] =>
  cells.map((i) => [xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width))]);

/** Places of a line's course at even steps, gaps between its crests included: the median of its cells about, or between the next ones. */
export function evenCourse(grid: HeightGrid, chain: Chain, withinMm: number): Place[] {
  const { x, y, ux, uy, lengthMm } = chain;
  const cells = placesAlong(grid, chain);
  return Array.from({ length: Math.round(lengthMm / grid.pitch) }, (_, k): Place => {
    const u = cells[0][0] + k * grid.pitch;
    const v = asideAt(cells, u, withinMm);
    return [x + u * ux - v * uy, y + u * uy + v * ux];
  });
}

/** How far aside a line's cells, in order along it, lie so far along it, mm. */
function asideAt(cells: readonly (readonly [along: number, aside: number])[], u: number, withinMm: number): number {
  const about = cells.filter(([at]) => Math.abs(at - u) <= withinMm);
  if (about.length > 0) return median(about.map(([, aside]) => aside));
  const next = cells.findIndex(([at]) => at > u);
  const [before, after] = [cells[next - 1], cells[next]];
  return before[1] + ((u - before[0]) / (after[0] - before[0])) * (after[1] - before[1]);
}

/** Across a line's own way at each of its places, as its neighbours along it lie. */
export function contrastsAcross(
  grid: HeightGrid,
  places: readonly Place[],
  { field, farMm, reach }: AcrossOptions,
): Contrasts {
  const besideMm = Math.max(field.besideMm, 2 * grid.pitch);
  const perSide = Math.max(1, Math.round(besideMm / Math.max(grid.pitch, 0.1)));
  const step = besideMm / perSide;
  const far = Math.round(farMm / step);
  const sections = places.map(([x, y], k) => {
    const [from, to] = [places[Math.max(0, k - reach)], places[Math.min(places.length - 1, k + reach)]];
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
    const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
    return Float64Array.from({ length: 2 * (far + perSide) + 1 }, (_, s) => {
      const t = (s - far - perSide) * step;
      return sampleGrid(grid, x - uy * t, y + ux * t);
    });
  });
  const aside = Array.from({ length: 2 * far + 1 }, (_, s) => (s - far) * step);
  const rows = aside.map((_, s) =>
    Float64Array.from(sections, (z) => z[s + perSide] - (z[s] + z[s + 2 * perSide]) / 2),
  );
  return { aside, besideMm, rows };
}

export const middleOf = ({ length }: { readonly length: number }): number => (length - 1) / 2;

/** Median of the known values; NaN with fewer than five. */
export function medianOf(values: Float64Array): number {
  const known = values.filter((value) => !Number.isNaN(value));
  return known.length >= 5 ? median(known) : Number.NaN;
}
