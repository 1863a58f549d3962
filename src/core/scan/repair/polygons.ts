/** Beyond this many corners a fold is left: real faces have a handful, and clipping is quadratic. */
const mostCorners = 2000;

/**
 * Splits polygons again whose fan folds over, as it does where a face is not convex. `polygons` holds pairs (first
 * triangle, number of triangles) of fans about their first corner; `triangles` is changed in place. All corners must be
 * vertices.
 * Ears are clipped in the plane of the polygon's own normal, Σ pᵢ × pᵢ₊₁ (Newell).
 */
export function unfoldPolygons(p: Float32Array, triangles: Uint32Array, polygons: Uint32Array): void {
  for (let i = 0; i < polygons.length; i += 2) {
    const corners = cornersOfFan(triangles, polygons[i], polygons[i + 1]);
    if (corners.length > mostCorners) continue;
    const flat = inOwnPlane(p, corners);
    if (fanFolds(flat)) clipEars(flat, corners, triangles, polygons[i] * 3);
  }
}

function cornersOfFan(triangles: Uint32Array, first: number, count: number): number[] {
  const corners = [triangles[first * 3], triangles[first * 3 + 1]];
  for (let t = first; t < first + count; t++) corners.push(triangles[t * 3 + 2]);
  return corners;
}

/** The corners as x, y pairs in the plane at right angles to the normal, counter-clockwise. */
function inOwnPlane(p: Float32Array, corners: readonly number[]): Float64Array {
  const normal = [0, 0, 0];
  corners.forEach((corner, i) => {
    const a = corner * 3;
    const b = corners[(i + 1) % corners.length] * 3;
    for (let axis = 0; axis < 3; axis++) {
      const u = (axis + 1) % 3;
      const v = (axis + 2) % 3;
      normal[axis] += p[a + u] * p[b + v] - p[a + v] * p[b + u];
    }
  });
  // Dropping the axis along which the normal is longest keeps the order of turning and needs no rotation.
  const sizes = normal.map(Math.abs);
  const axis = sizes.indexOf(Math.max(...sizes));
  const [u, v] = normal[axis] >= 0 ? [(axis + 1) % 3, (axis + 2) % 3] : [(axis + 2) % 3, (axis + 1) % 3];
  const flat = new Float64Array(corners.length * 2);
  corners.forEach((corner, i) => {
    flat[i * 2] = p[corner * 3 + u];
    flat[i * 2 + 1] = p[corner * 3 + v];
  });
  return flat;
}

/** Twice the signed area of the triangle a, b, c. */
function turnOf(flat: Float64Array, a: number, b: number, c: number): number {
  const ax = flat[a * 2];
  const ay = flat[a * 2 + 1];
  return (flat[b * 2] - ax) * (flat[c * 2 + 1] - ay) - (flat[b * 2 + 1] - ay) * (flat[c * 2] - ax);
}

function fanFolds(flat: Float64Array): boolean {
  for (let i = 2; i < flat.length / 2; i++) if (turnOf(flat, 0, i - 1, i) < 0) return true;
  return false;
}

function clipEars(flat: Float64Array, corners: readonly number[], triangles: Uint32Array, at: number): void {
  const ring = corners.map((_, i) => i);
  let place = at;
  while (ring.length >= 3) {
    const ear = ring.findIndex((_, i) => isEar(flat, ring, i));
    // A polygon that crosses itself may have no ear: then any corner is cut off, so that the count stays right.
    const i = Math.max(0, ear);
    for (const j of [i - 1, i, i + 1]) triangles[place++] = corners[ring[(j + ring.length) % ring.length]];
    ring.splice(i, 1);
  }
}

function isEar(flat: Float64Array, ring: readonly number[], i: number): boolean {
  const a = ring[(i - 1 + ring.length) % ring.length];
  const b = ring[i];
  const c = ring[(i + 1) % ring.length];
  if (turnOf(flat, a, b, c) <= 0) return false;
  return ring.every(
    (d) =>
      d === a ||
      d === b ||
      d === c ||
      turnOf(flat, a, b, d) < 0 ||
      turnOf(flat, b, c, d) < 0 ||
      turnOf(flat, c, a, d) < 0,
  );
}
