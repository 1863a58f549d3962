import type { GeneratedScan } from '../../sample-scans/generator/types.ts';
import { apply, rotationAbout, type Similarity, type Vec3 } from '../../src/core/geometry/index.ts';

/** A wandering break through the middle of a face, x over y, mm. */
const breakAt = (y: number): number => 1.6 * Math.sin(0.35 * y) + 0.5 * Math.sin(1.3 * y + 1);

export interface Piece {
  readonly positions: Float64Array;
  readonly triangles: Uint32Array;
}

/**
 * A scan in mm broken in two along a wandering line through its face from top to bottom, `lostMm` of it lost there, each piece
 * turned and moved on its own as it would lie under another scanner.
 */
export function broken(scan: GeneratedScan, lostMm: number): [Piece, Piece] {
  return [-1, 1].map((side): Piece => {
    const kept: number[] = [];
    for (let t = 0; t < scan.triangles.length; t += 3) {
      const corners = [0, 1, 2].map((k) => apply(scan.faceFromScan, vertex(scan.positions, scan.triangles[t + k])));
      if (corners.every(([x, y]) => side * (x - breakAt(y)) > lostMm / 2)) kept.push(t);
    }
    return moved(scan, kept, side);
  }) as [Piece, Piece];
}

const vertex = (positions: Float64Array, i: number): Vec3 => [
  positions[3 * i],
  positions[3 * i + 1],
  positions[3 * i + 2],
];

function moved({ positions, triangles }: GeneratedScan, kept: readonly number[], side: number): Piece {
  const rotation = rotationAbout([0.48, 0.64, 0.6 * side], 0.7 * side);
  const motion: Similarity = { scale: 1, rotation, translation: [12 * side, 3, 5] };
  const numbers = new Map<number, number>();
  const out: number[] = [];
  const corners = kept.flatMap((t) => [0, 1, 2].map((k) => triangles[t + k]));
  for (const i of corners) {
    if (numbers.has(i)) continue;
    numbers.set(i, numbers.size);
    out.push(...apply(motion, vertex(positions, i)));
  }
  return { positions: Float64Array.from(out), triangles: Uint32Array.from(corners, (i) => numbers.get(i) as number) };
}
