import { sameDirection } from './edges.ts';

/** The normal times twice the area of the triangle at `t`: (b − a) × (c − a). */
function normalAt(p: Float32Array, triangles: Uint32Array, t: number, out: Float64Array): void {
  const a = triangles[t] * 3;
  const b = triangles[t + 1] * 3;
  const c = triangles[t + 2] * 3;
  const ux = p[b] - p[a];
  const uy = p[b + 1] - p[a + 1];
  const uz = p[b + 2] - p[a + 2];
  const vx = p[c] - p[a];
  const vy = p[c + 1] - p[a + 1];
  const vz = p[c + 2] - p[a + 2];
  out[0] = uy * vz - uz * vy;
  out[1] = uz * vx - ux * vz;
  out[2] = ux * vy - uy * vx;
}

export function areaAt(p: Float32Array, triangles: Uint32Array, t: number, scratch: Float64Array): number {
  normalAt(p, triangles, t, scratch);
  return Math.sqrt(scratch[0] ** 2 + scratch[1] ** 2 + scratch[2] ** 2) / 2;
}

function turn(triangles: Uint32Array, t: number): void {
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
  const scratch = new Float64Array(3);
  let turned = 0;
  for (let seed = 0; seed < side.length; seed++) {
    if (side[seed] !== 0) continue;
    const { end, orientable } = floodPiece(seed, triangles, mate, name, side, queue);
    if (!orientable) continue;
    let balance = 0;
    for (let i = 0; i < end; i++) balance += side[queue[i]] * areaAt(p, triangles, queue[i] * 3, scratch);
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

/** Share of its area that a body's normals may leave uncancelled to count as closed. */
const openShare = 0.02;
/** Smallest size of 6 √π V / A^1.5 (1 for a sphere) by which inside and outside are told apart. */
const leastVolume = 0.02;

/**
 * Turns every triangle where the surface is a closed body wound inside out: the normals cancel (|Σ n A| ≤ 2 % of
 * Σ A, so small holes do no harm) and the volume Σ a·(b × c)/6 is clearly negative. An open sheet is never touched:
 * its two sides cannot be told apart. Returns how many were turned: all or none.
 */
export function turnInsideOut(p: Float32Array, triangles: Uint32Array): number {
  const n = new Float64Array(3);
  let area = 0;
  let volume = 0;
  let x = 0;
  let y = 0;
  let z = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    normalAt(p, triangles, t, n);
    const a = triangles[t] * 3;
    area += Math.sqrt(n[0] ** 2 + n[1] ** 2 + n[2] ** 2) / 2;
    volume += (p[a] * n[0] + p[a + 1] * n[1] + p[a + 2] * n[2]) / 6;
    x += n[0] / 2;
    y += n[1] / 2;
    z += n[2] / 2;
  }
  const closed = Math.hypot(x, y, z) <= openShare * area;
  if (!closed || (6 * Math.sqrt(Math.PI) * volume) / area ** 1.5 > -leastVolume) return 0;
  for (let t = 0; t < triangles.length; t += 3) turn(triangles, t);
  return triangles.length / 3;
}
