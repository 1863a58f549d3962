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
export function borderEdges(mesh: Mesh): Uint8Array {
  const { triangles: t, positions } = mesh;
  const parity = neighbourParity(t, positions.length / 3);
  const vertices = positions.length / 3;
  const uses = new Map<number, number>();
  const key = (a: number, b: number): number => (a < b ? a * vertices + b : b * vertices + a);
  const eachCandidate = (visit: (triangle: number, bit: number, edge: number) => void): void => {
    for (let i = 0; i < t.length; i += 3) {
      const a = t[i];
      const b = t[i + 1];
      const c = t[i + 2];
      const pa = parity[a];
      const pb = parity[b];
      const pc = parity[c];
      if (pa && pb) visit(i / 3, 1, key(a, b));
      if (pb && pc) visit(i / 3, 2, key(b, c));
      if (pc && pa) visit(i / 3, 4, key(c, a));
    }
  };
  eachCandidate((_, __, edge) => uses.set(edge, (uses.get(edge) ?? 0) + 1));
  const open = new Uint8Array(t.length / 3);
  eachCandidate((triangle, bit, edge) => {
    if (uses.get(edge) === 1) open[triangle] |= bit;
  });
  markCorners(t, open, vertices);
  return open;
}

function markCorners(t: Uint32Array, open: Uint8Array, vertices: number): void {
  const ends = new Uint8Array(vertices);
  for (let i = 0; i < open.length; i++) {
    if (open[i] === 0) continue;
    for (let k = 0; k < 3; k++)
      if (open[i] & (1 << k)) {
        ends[t[3 * i + k]] = 1;
        ends[t[3 * i + ((k + 1) % 3)]] = 1;
      }
  }
  for (let i = 0, k = 0; i < t.length; i += 3, k++) {
    const bits = ends[t[i]] | (ends[t[i + 1]] << 1) | (ends[t[i + 2]] << 2);
    if (bits) open[k] |= bits << 3;
  }
}

function neighbourParity(t: Uint32Array, vertices: number): Int32Array {
  const scrambled = new Int32Array(vertices);
  for (let i = 0; i < vertices; i++) scrambled[i] = scramble(i + 1);
  const parity = new Int32Array(vertices);
  for (let i = 0; i < t.length; i += 3) {
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
  return parity;
}

/** A bijection of 32-bit numbers that leaves no simple exclusive-or relation between near numbers. */
function scramble(value: number): number {
  let h = Math.imul(value ^ (value >>> 16), 0x7feb352d);
  h = Math.imul(h ^ (h >>> 15), 0x846ca68b);
  return h ^ (h >>> 16);
}
