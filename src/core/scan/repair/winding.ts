import { sameDirection } from './edges.ts';
import { areaAt } from './totals.ts';

export function turn(triangles: Uint32Array, t: number): void {
  const b = triangles[t + 1];
  triangles[t + 1] = triangles[t + 2];
  triangles[t + 2] = b;
}

/**
 * Makes neighbours wind alike: floods each piece over edges that exactly two triangles share, and turns the side that
 * has the smaller area. A piece that cannot be wound consistently (a Möbius band) stays as it is.
 * `triangles` is changed; returns how many were turned.
 */
export function agreeWinding(
  p: Float32Array,
  triangles: Uint32Array,
  mate: Int32Array,
  name: Uint32Array | null,
): number {
  const side = new Int8Array(triangles.length / 3);
  const queue = new Int32Array(triangles.length / 3);
  let turned = 0;
  for (let seed = 0; seed < side.length; seed++) {
    if (side[seed] !== 0) continue;
    const { end, orientable } = floodPiece(seed, triangles, mate, name, side, queue);
    if (!orientable) continue;
    let balance = 0;
    for (let i = 0; i < end; i++) balance += side[queue[i]] * areaAt(p, triangles, queue[i] * 3);
    const minority = balance < 0 ? 1 : -1;
    for (let i = 0; i < end; i++) {
      if (side[queue[i]] !== minority) continue;
      turn(triangles, queue[i] * 3);
      turned++;
    }
  }
  return turned;
}

/** Puts every triangle of the seed's piece on side 1 (as the seed) or −1; the piece is queue[0 … end). */
function floodPiece(
  seed: number,
  triangles: Uint32Array,
  mate: Int32Array,
  name: Uint32Array | null,
  side: Int8Array,
  queue: Int32Array,
): { end: number; orientable: boolean } {
  let orientable = true;
  let end = 1;
  queue[0] = seed;
  side[seed] = 1;
  for (let at = 0; at < end; at++) {
    const triangle = queue[at];
    for (let half = triangle * 3; half < triangle * 3 + 3; half++) {
      const other = mate[half];
      if (other < 0) continue;
      const neighbour = (other - (other % 3)) / 3;
      const wanted = sameDirection(half, other, triangles, name) ? -side[triangle] : side[triangle];
      if (side[neighbour] === 0) {
        side[neighbour] = wanted;
        queue[end++] = neighbour;
      } else if (side[neighbour] !== wanted) orientable = false;
    }
  }
  return { end, orientable };
}
