/** Marks of a half-edge that has no single partner. */
export const atBoundary = -1;
export const atCrowdedEdge = -2;

export const nextCorner = (halfEdge: number): number => (halfEdge % 3 === 2 ? halfEdge - 2 : halfEdge + 1);

/**
 * Pairs the half-edges of a triangle list: one entry per half-edge 3t + k, which runs from corner k of triangle t to the
 * next one. The entry is the half-edge of the one other triangle at this edge, `atBoundary` where there is none, and
 * `atCrowdedEdge` where more than two triangles meet. Each vertex keeps a chain of the half-edges of which it is the lower end;
 * within a chain the last half-edge seen towards each upper end is remembered per vertex, so that the work is linear
 * even where a hundred thousand triangles share a corner. The chain lives in the array that becomes the result.
 * `name` renames vertices (vertices at one place), or is null.
 */
export function pairEdges(triangles: Uint32Array, vertexCount: number, name: Uint32Array | null): Int32Array {
  const chains = chainHalfEdges(triangles, vertexCount, name);
  const { head, next } = chains;
  const mate = next;
  const seenFrom = new Int32Array(vertexCount).fill(-1);
  const seen = new Int32Array(vertexCount);
  for (let low = 0; low < vertexCount; low++) {
    for (let half = head[low]; half >= 0; ) {
      const following = next[half];
      const from = nameOf(triangles[half], name);
      const high = from === low ? nameOf(triangles[nextCorner(half)], name) : from;
      mate[half] = atBoundary;
      if (seenFrom[high] !== low) {
        seenFrom[high] = low;
        seen[high] = half;
      } else join(mate, seen[high], half);
      half = following;
    }
  }
  return mate;
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

/** Makes two half-edges partners, or the edge a crowded one. */
function join(mate: Int32Array, first: number, half: number): void {
  const partner = mate[first];
  mate[half] = partner === atBoundary ? first : atCrowdedEdge;
  mate[first] = partner === atBoundary ? half : atCrowdedEdge;
  if (partner >= 0) mate[partner] = atCrowdedEdge;
}

/** True where two half-edges of one edge run through it the same way: their triangles are wound against each other. */
export const sameDirection = (one: number, other: number, triangles: Uint32Array, name: Uint32Array | null): boolean =>
  nameOf(triangles[one], name) === nameOf(triangles[other], name);
