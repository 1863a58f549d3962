import { solveDefinite, tukeyWeight } from '../../geometry/index.ts';
import { edgesApart } from './edgesApart.ts';
import { outwardNormals, type Way } from './outerEdge.ts';

export const layEdgeDefaults = {
  rounds: 6,
  /** What lies farther apart has no say, mm: at first, and at last. */
  firstMm: 1,
  lastMm: 0.5,
  /** The fit of the faces holds the edge by so many points at its own place, and its turn and size by so many mm² of them. */
  holdShift: 1,
  holdTurn: 400,
};

/**
 * The other edge laid on an edge by a small shift, turn and growth, least squares of the distances between them (Tukey weights). The
 * fit of two faces ends where the design does, and what it is wrong by grows toward the edge.
 */
export function layEdge(edge: Way, other: Way, options = layEdgeDefaults): Way {
  const { rounds, firstMm, lastMm } = options;
  const normals = outwardNormals(edge);
  let laid = other;
  for (let round = 0; round < rounds; round++) {
    const withinMm = Math.max(lastMm, firstMm * (1 - round / rounds));
    const move = bestMove(edge, normals, edgesApart(edge, laid, withinMm, normals), withinMm, options);
    if (!move) return laid;
    laid = moved(laid, move);
  }
  return laid;
}

/** Shift x, y, turn and growth u that least squares asks for: apart + n · (move of the other there) = 0. */
function bestMove(
  edge: Way,
  normals: Float64Array,
  apart: Float64Array,
  withinMm: number,
  { holdShift, holdTurn }: typeof layEdgeDefaults,
): Float64Array | null {
  const h = new Float64Array(16);
  const g = new Float64Array(4);
  [holdShift, holdShift, holdTurn, holdTurn].forEach((hold, k) => {
    h[5 * k] = hold;
  });
  for (let i = 0; i < apart.length; i++) {
    if (!Number.isFinite(apart[i])) continue;
    const weight = tukeyWeight(apart[i] / withinMm);
    const [x, y, nx, ny] = [edge[2 * i], edge[2 * i + 1], normals[2 * i], normals[2 * i + 1]];
    const row = [nx, ny, x * ny - y * nx, x * nx + y * ny];
    for (let r = 0; r < 4; r++) {
      g[r] -= weight * row[r] * apart[i];
      for (let c = 0; c < 4; c++) h[4 * r + c] += weight * row[r] * row[c];
    }
  }
  return solveDefinite(h, g, 4);
}

function moved(way: Way, [dx, dy, turn, growth]: Float64Array): Way {
  const out = new Float64Array(way.length);
  for (let i = 0; i < way.length; i += 2) {
    const [x, y] = [way[i], way[i + 1]];
    out[i] = x + dx - turn * y + growth * x;
    out[i + 1] = y + dy + turn * x + growth * y;
  }
  return out;
}
