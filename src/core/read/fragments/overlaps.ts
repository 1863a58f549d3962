import { distanceTransform } from '../../geometry/index.ts';
import type { PlacedFragment } from './placeFragments.ts';

/**
 * Two fragments that carry the same places of the reference: pieces of one impression cannot, so that these are of two
 * impressions of it.
 */
export interface TwoImpressions {
  readonly code: 'twoImpressions';
  readonly one: string;
  readonly two: string;
  /** What both carry, and how deep it reaches in from the nearer of all edges, mm. */
  readonly mm2: number;
  readonly depthMm: number;
}

export const overlapDefaults = {
  /**
   * The noise of edges: broken wax lies over its neighbour at a slanting edge, and wax that bent before it broke is laid up to half
   * a millimetre beside its place. Two that carry the same letters reach in further than `depthMm`, over more than `mm2`.
   */
  depthMm: 1,
  mm2: 5,
  /** Surfaces further apart in height are not one place: the one is a face, the other the break's own slope below it, mm. */
  apartMm: 1,
} as const;

/** What two placed fragments both carry, beyond the noise of their edges; null where they do not. */
export function overlapOf(
  one: PlacedFragment,
  two: PlacedFragment,
  options: typeof overlapDefaults = overlapDefaults,
): TwoImpressions | null {
  const [a, b] = [one.surface, two.surface];
  const both = a.mask.map((has, i) => (has && b.mask[i] && Math.abs(a.z[i] - b.z[i]) < options.apartMm ? 1 : 0));
  const mm2 = both.reduce((sum, has) => sum + has, 0) * a.pitch ** 2;
  const depth = distanceTransform(both, a.width).reduce((most, each) => Math.max(most, each), 0) * a.pitch;
  if (mm2 <= options.mm2 || depth <= options.depthMm) return null;
  return { code: 'twoImpressions', one: one.name, two: two.name, mm2, depthMm: depth };
}

/** All pairs of fragments that cannot be of one impression. */
export const overlapsAmong = (fragments: readonly PlacedFragment[]): TwoImpressions[] =>
  fragments.flatMap((two, k) => fragments.slice(0, k).flatMap((one) => overlapOf(one, two) ?? []));
