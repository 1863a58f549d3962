/** Marks of a half-edge that has no single partner. */
export const atBoundary = -1;
export const atCrowdedEdge = -2;

export interface EdgePairs {
  /**
   * One per half-edge 3t + k, which runs from corner k of triangle t to the next one: the half-edge of the one other
   * triangle at this edge, `atBoundary` where there is none, `atCrowdedEdge` where more than two triangles meet.
   */
  readonly mate: Int32Array;
  /** Edges between two triangles that run through it in the same direction: one of them is wound the wrong way. */
  readonly disagreeing: number;
  /** Triangles whose three edges all lead to one other triangle or are crowded: only these can be listed twice. */
  readonly suspects: number;
}

export const nextCorner = (halfEdge: number): number => (halfEdge % 3 === 2 ? halfEdge - 2 : halfEdge + 1);

/**
 * Pairs the half-edges of a triangle list. Each vertex keeps a chain of the half-edges of which it is the lower end;
 * within a chain the last half-edge seen towards each upper end is remembered per vertex, so that the work is linear
 * even where a hundred thousand triangles share a corner. The chain lives in the array that becomes the result.
 * `name` renames vertices (vertices at one place), or is null.
 */
export function pairEdges(triangles: Uint32Array, vertexCount: number, name: Uint32Array | null): EdgePairs {
  const chains = chainHalfEdges(triangles, vertexCount, name);
  const { head, next } = chains;
  const mate = next;
  const seenFrom = new Int32Array(vertexCount).fill(-1);
  const seen = new Int32Array(vertexCount);
  let disagreeing = 0;
  for (let low = 0; low < vertexCount; low++) {
    for (let half = head[low]; half >= 0; ) {
      const following = next[half];
      const from = nameOf(triangles[half], name);
      const high = from === low ? nameOf(triangles[nextCorner(half)], name) : from;
      mate[half] = atBoundary;
      if (seenFrom[high] !== low) {
        seenFrom[high] = low;
        seen[high] = half;
      } else disagreeing += join(mate, seen[high], half, triangles, name);
      half = following;
    }
  }
  return { mate, disagreeing, suspects: countSuspects(mate) };
}

const nameOf = (vertex: number, name: Uint32Array | null): number => (name ? name[vertex] : vertex);

function chainHalfEdges(triangles: Uint32Array, vertexCount: number, name: Uint32Array | null) {
  const head = new Int32Array(vertexCount).fill(-1);
  const next = new Int32Array(triangles.length);
  for (let t = 0; t < triangles.length; t += 3) {
    const a = nameOf(triangles[t], name);
    const b = nameOf(triangles[t + 1], name);
    const c = nameOf(triangles[t + 2], name);
    const ab = Math.min(a, b);
    const bc = Math.min(b, c);
    const ca = Math.min(c, a);
    next[t] = head[ab];
    head[ab] = t;
    next[t + 1] = head[bc];
    head[bc] = t + 1;
    next[t + 2] = head[ca];
    head[ca] = t + 2;
  }
  return { head, next };
}

/** Makes two half-edges partners, or the edge a crowded one. Returns by how much the disagreeing edges grow. */
function join(mate: Int32Array, first: number, half: number, triangles: Uint32Array, name: Uint32Array | null): number {
  const partner = mate[first];
  if (partner === atBoundary) {
    mate[first] = half;
    mate[half] = first;
    return sameDirection(first, half, triangles, name) ? 1 : 0;
  }
  mate[half] = atCrowdedEdge;
  if (partner === atCrowdedEdge) return 0;
  mate[first] = atCrowdedEdge;
  mate[partner] = atCrowdedEdge;
  return sameDirection(first, partner, triangles, name) ? -1 : 0;
}

export const sameDirection = (one: number, other: number, triangles: Uint32Array, name: Uint32Array | null): boolean =>
  nameOf(triangles[one], name) === nameOf(triangles[other], name);

function countSuspects(mate: Int32Array): number {
  let suspects = 0;
  for (let t = 0; t < mate.length; t += 3) if (isSuspect(mate, t)) suspects++;
  return suspects;
}

/** True where the triangle that begins at half-edge `t` may be listed twice. */
export function isSuspect(mate: Int32Array, t: number): boolean {
  const a = mate[t];
  const b = mate[t + 1];
  const c = mate[t + 2];
  if (a === atBoundary || b === atBoundary || c === atBoundary) return false;
  const other = a >= 0 ? a : b >= 0 ? b : c;
  if (other < 0) return true;
  const triangle = other - (other % 3);
  const leads = (m: number) => m < 0 || m - (m % 3) === triangle;
  return leads(a) && leads(b) && leads(c);
}
