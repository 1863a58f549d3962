import { inStretches } from '../stretches.ts';
import type { Mesh } from './mesh.ts';

/**
 * Which edges of a mesh are open: used by exactly one triangle. One byte per triangle, bit 0 for its edge ab, bit 1 for
 * bc, bit 2 for ca; bits 3, 4 and 5 for its corners a, b and c where an open edge, of any triangle, ends there.
 *
 * Around an inner vertex every neighbour turns up in an even number of triangle corners, so the exclusive or of
 * scrambled neighbour numbers is 0 there; only edges between two vertices where it is not 0 can be open, and only those
 * few are counted one by one. A chance zero (2⁻³² a vertex) would hide one vertex's open edges, nothing worse. Winding
 * does not matter. O(triangles).
 */
export function borderEdges({ triangles: t, positions }: Mesh): Uint8Array {
  const vertices = positions.length / 3;
  const candidates: Candidates = { t, parity: neighbourParity(t, vertices), vertices, edges: [], sides: [] };
  inStretches(findCandidates, candidates, t.length / 3);
  const { edges, sides } = candidates;
  const uses = new Map<number, number>();
  for (const edge of edges) uses.set(edge, (uses.get(edge) ?? 0) + 1);
  const open = new Uint8Array(t.length / 3);
  const ends = new Uint8Array(vertices);
  edges.forEach((edge, k) => {
    if (uses.get(edge) !== 1) return;
    const triangle = Math.floor(sides[k] / 3);
    const side = sides[k] % 3;
    open[triangle] |= 1 << side;
    ends[t[3 * triangle + side]] = 1;
    ends[t[3 * triangle + ((side + 1) % 3)]] = 1;
  });
  inStretches(markCorners, { t, ends, open }, t.length / 3);
  return open;
}

interface Candidates {
  readonly t: Uint32Array;
  readonly parity: Int32Array;
  readonly vertices: number;
  /** Found: edges that may be open, as often as triangles have them, each as one number, … */
  readonly edges: number[];
  /** … and where: three times the triangle, and 0 for ab, 1 for bc, 2 for ca. */
  readonly sides: number[];
}

function findCandidates({ t, parity, vertices, edges, sides }: Candidates, from: number, to: number): void {
  const found = (side: number, a: number, b: number): void => {
    edges.push(a < b ? a * vertices + b : b * vertices + a);
    sides.push(side);
  };
  for (let i = 3 * from; i < 3 * to; i += 3) {
    const pa = parity[t[i]];
    const pb = parity[t[i + 1]];
    const pc = parity[t[i + 2]];
    if (pa && pb) found(i, t[i], t[i + 1]);
    if (pb && pc) found(i + 1, t[i + 1], t[i + 2]);
    if (pc && pa) found(i + 2, t[i + 2], t[i]);
  }
}

interface Corners {
  readonly t: Uint32Array;
  /** 1 for a vertex at which an open edge ends. */
  readonly ends: Uint8Array;
  readonly open: Uint8Array;
}

function markCorners({ t, ends, open }: Corners, from: number, to: number): void {
  for (let k = from, i = 3 * from; k < to; k++, i += 3) {
    const bits = ends[t[i]] | (ends[t[i + 1]] << 1) | (ends[t[i + 2]] << 2);
    if (bits) open[k] |= bits << 3;
  }
}

function neighbourParity(t: Uint32Array, vertices: number): Int32Array {
  const job = { t, scrambled: new Int32Array(vertices), parity: new Int32Array(vertices) };
  inStretches(scrambleAll, job, vertices);
  inStretches(addParity, job, t.length / 3);
  return job.parity;
}

interface Parity {
  readonly t: Uint32Array;
  readonly scrambled: Int32Array;
  readonly parity: Int32Array;
}

function scrambleAll({ scrambled }: Parity, from: number, to: number): void {
  for (let i = from; i < to; i++) scrambled[i] = scramble(i + 1);
}

function addParity({ t, scrambled, parity }: Parity, from: number, to: number): void {
  for (let i = 3 * from; i < 3 * to; i += 3) {
    const a = t[i];
    const b = t[i + 1];
    const c = t[i + 2];
    const sa = scrambled[a];
    const sb = scrambled[b];
    const sc = scrambled[c];
    parity[a] ^= sb ^ sc;
    parity[b] ^= sc ^ sa;
    parity[c] ^= sa ^ sb;
  }
}

/** A bijection of 32-bit numbers that leaves no simple exclusive-or relation between near numbers. */
function scramble(value: number): number {
  let h = Math.imul(value ^ (value >>> 16), 0x7feb352d);
  h = Math.imul(h ^ (h >>> 15), 0x846ca68b);
  return h ^ (h >>> 16);
}
