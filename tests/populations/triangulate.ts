import Delaunator from 'delaunator';
import type { Chance } from './chance.ts';
import { type Made, onPiece } from './made.ts';
import type { Support } from './types.ts';

/** Scattered points of the design's plane, x, y pairs, and the Delaunay triangles between them that lie on the object. */
export interface Scatter {
  readonly points: Float64Array;
  readonly triangles: Uint32Array;
}

/** Whether the scan shows the object at (x, y). */
function shownBy(made: Made, support: Support): (x: number, y: number) => boolean {
  if (support === 'table' && !made.negative) return () => true;
  return (x, y) => onPiece(made, x, y);
}

/** Points scattered about `spacing` mm apart, off their rows by up to a third, with thinned and doubled places. */
export function scatter(made: Made, support: Support, spacing: number, chance: Chance): Scatter {
  const { lattice } = made;
  const shown = shownBy(made, support);
  const right = lattice.left + (lattice.width - 1) * lattice.pitch;
  const top = lattice.bottom + (lattice.height - 1) * lattice.pitch;
  const turn = chance.range(0, Math.PI / 3);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const reach = Math.hypot(right, top);
  const rowStep = spacing * 0.93;
  const found: number[] = [];
  const put = (x: number, y: number): void => {
    if (Math.abs(x) < right && Math.abs(y) < top && shown(x, y)) found.push(x, y);
  };
  for (let row = 0, b = -reach; b < reach; b += rowStep, row++)
    for (let a = -reach + (row % 2) * (spacing / 2); a < reach; a += spacing) {
      const chosen = chance.unit();
      if (chosen < 0.02) continue;
      const u = a + spacing * 0.66 * (chance.unit() - 0.5);
      const v = b + spacing * 0.66 * (chance.unit() - 0.5);
      put(c * u - s * v, s * u + c * v);
      if (chosen > 0.98) put(c * u - s * v + 0.4 * spacing, s * u + c * v + 0.3 * spacing);
    }
  const points = Float64Array.from(found);
  return { points, triangles: keptTriangles(new Delaunator(points), points, spacing, shown) };
}

function keptTriangles(
  { triangles: all }: { triangles: Uint32Array },
  p: Float64Array,
  spacing: number,
  shown: (x: number, y: number) => boolean,
): Uint32Array {
  const longest = (3.2 * spacing) ** 2;
  const kept = new Uint32Array(all.length);
  let n = 0;
  for (let i = 0; i < all.length; i += 3) {
    const a = 2 * all[i];
    const b = 2 * all[i + 1];
    const d = 2 * all[i + 2];
    const ab = (p[a] - p[b]) ** 2 + (p[a + 1] - p[b + 1]) ** 2;
    const bd = (p[b] - p[d]) ** 2 + (p[b + 1] - p[d + 1]) ** 2;
    const da = (p[d] - p[a]) ** 2 + (p[d + 1] - p[a + 1]) ** 2;
    if (ab > longest || bd > longest || da > longest) continue;
    if (!shown((p[a] + p[b] + p[d]) / 3, (p[a + 1] + p[b + 1] + p[d + 1]) / 3)) continue;
    // Anticlockwise seen from the impression's outside.
    const left = (p[b] - p[a]) * (p[d + 1] - p[a + 1]) - (p[b + 1] - p[a + 1]) * (p[d] - p[a]) > 0;
    kept[n++] = all[i];
    kept[n++] = all[i + (left ? 1 : 2)];
    kept[n++] = all[i + (left ? 2 : 1)];
  }
  return kept.slice(0, n);
}

/** Directed edges that belong to one triangle only, as pairs in the triangles' own sense. */
export function openEdges(triangles: Uint32Array, vertices: number): [number, number][] {
  const seen = new Map<number, [number, number]>();
  for (let i = 0; i < triangles.length; i += 3)
    for (let k = 0; k < 3; k++) {
      const a = triangles[i + k];
      const b = triangles[i + ((k + 1) % 3)];
      if (!seen.delete(b * vertices + a)) seen.set(a * vertices + b, [a, b]);
    }
  return [...seen.values()];
}
