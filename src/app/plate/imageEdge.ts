import { apply, type Similarity } from '../../core/geometry/index.ts';
import type { FaceView } from '../../workers/browser/protocol.ts';

export const edgeSectors = 72;

/** Where the image ends: distance from the plate's middle, mm, for every 5° clockwise from y up, in the plate's frame. */
export type ImageEdge = Float32Array;

interface Lying {
  readonly face: Pick<FaceView, 'outline' | 'sense'>;
  readonly lies: Similarity;
}

/**
 * The edge of the image that two faces share: a matrix ends where its image does, while wax goes on; of two alike, the smaller is the
 * barer of lips, unless it is so small that it is a fragment: then the whole one frames both. One face alone has its own.
 */
export function imageEdge(shown: readonly Lying[]): ImageEdge {
  const known = shown.filter(({ face }) => face.outline.polygon.length > 5);
  const [first, second] = known.map((one) => edgeOf(one));
  if (!first || !second) return first ?? new Float32Array(edgeSectors).fill(1);
  const [a, b] = known.map(({ face }) => face.sense);
  if (a !== b) return a === 'intaglio' ? first : second;
  const [small, large] = longestReach(first) <= longestReach(second) ? [first, second] : [second, first];
  return longestReach(small) < fragmentShare * longestReach(large) ? large : small;
}

const fragmentShare = 0.8;

/** Crossings of the outline with a ray every 5°; where it is crossed more than once, the farthest. */
function edgeOf({ face, lies }: Lying): ImageEdge {
  const edge = new Float32Array(edgeSectors);
  const { polygon } = face.outline;
  const at = (i: number): readonly number[] => {
    const k = (2 * i) % polygon.length;
    return apply(lies, [polygon[k], polygon[k + 1], 0]);
  };
  for (let i = 0; 2 * i < polygon.length; i++) {
    const [p, q] = [at(i), at(i + 1)];
    // Every tenth of a side: shorter than a sector for all but the crudest outlines.
    for (let t = 0; t < 1; t += 0.1) {
      const [x, y] = [p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])];
      const sector =
        Math.round(((Math.atan2(x, y) / (2 * Math.PI)) * edgeSectors + edgeSectors) % edgeSectors) % edgeSectors;
      edge[sector] = Math.max(edge[sector], Math.hypot(x, y));
    }
  }
  return filled(edge);
}

/** Sectors that nothing fell in take the nearer neighbour's. */
function filled(edge: ImageEdge): ImageEdge {
  const around = (i: number, k: number): number =>
    edge[(i + k) % edgeSectors] || edge[(i - k + edgeSectors) % edgeSectors];
  return edge.map((r, i) => {
    for (let k = 1; r === 0 && k < edgeSectors / 2; k++) if (around(i, k)) return around(i, k);
    return r;
  });
}

/** Distance of the edge in a direction, radians clockwise from y up. */
export function edgeAt(edge: ImageEdge, angle: number): number {
  const at = ((((angle / (2 * Math.PI)) * edgeSectors) % edgeSectors) + edgeSectors) % edgeSectors;
  const low = Math.floor(at);
  return edge[low % edgeSectors] * (1 - at + low) + edge[(low + 1) % edgeSectors] * (at - low);
}

/** So far beyond the edge, as shares of its greatest distance, what goes on begins to fade, and is gone. */
export const fadeFrom = 0.02;
export const fadeTo = 0.12;

export const longestReach = (edge: ImageEdge): number => edge.reduce((most, r) => Math.max(most, r), 0);

/** Width and height about the middle that hold the image after a turn of the picture, degrees clockwise, mm. */
export function extentOf(edge: ImageEdge, turnDeg: number): readonly [number, number] {
  let [x, y] = [0.5, 0.5];
  edge.forEach((r, i) => {
    const a = (i / edgeSectors) * 2 * Math.PI + (turnDeg * Math.PI) / 180;
    x = Math.max(x, Math.abs(r * Math.sin(a)));
    y = Math.max(y, Math.abs(r * Math.cos(a)));
  });
  return [2 * x, 2 * y];
}
