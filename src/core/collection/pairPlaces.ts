import { type Face, longSide } from '../face/index.ts';
import { chosenModel, type Fit, faceMotion } from '../fit/index.ts';
import type { Constellation } from '../judge/index.ts';

/** Where the letters and ornaments of a verified pair lie against one another, in the plane of a's face, mm. */
export interface PairPlaces {
  /** b's plane on a's: (x, y) ↦ (m₀ x + m₁ y + m₄, m₂ x + m₃ y + m₅). */
  readonly map: PlaneMotion;
  /** Long side of a's face. */
  readonly sizeMm: number;
  /** Of each place x, y and the shift of b's against a's that the smooth flow of all others leaves: four numbers. */
  readonly at: readonly number[];
}

export type PlaneMotion = readonly [number, number, number, number, number, number];

/** Places that are kept of a pair, at most: about 1.5 kB. */
const mostPlaces = 80;

/** What is kept of a pair's places, as text; null where it was not fitted or fewer than nine are seen. */
export function packPlaces(reference: Face, subject: Face, fit: Fit, seen: Constellation | null): string | null {
  const model = fit.found ? chosenModel(fit) : undefined;
  if (!model || !seen || seen.landmarks.length < 9) return null;
  const { rotation, scale, translation } = faceMotion(reference, subject, model);
  const linear = [0, 1, 3, 4].map((k) => Math.round(1e6 * scale * rotation[k]));
  const um = (mm: number): number => Math.round(1000 * mm);
  const places = seen.landmarks
    .slice(0, mostPlaces)
    .flatMap(({ x, y, aloneSmooth: [dx, dy] }) => [um(x), um(y), um(dx), um(dy)]);
  return JSON.stringify([um(longSide(reference)), ...linear, um(translation[0]), um(translation[1]), ...places]);
}

export function unpackPlaces(text: string): PairPlaces {
  const [size, a, b, c, d, x, y, ...at] = JSON.parse(text) as number[];
  return {
    map: [a / 1e6, b / 1e6, c / 1e6, d / 1e6, x / 1000, y / 1000],
    sizeMm: size / 1000,
    at: at.map((um) => um / 1000),
  };
}
