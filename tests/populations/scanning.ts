import { apply, type Similarity } from '../../src/core/geometry/index.ts';
import { writePly } from '../../src/core/scan/index.ts';
import { fromQuaternion } from './bestSimilarity.ts';
import type { Chance } from './chance.ts';
import { type Lattice, randomSurface, valueAt } from './lattice.ts';
import { conditionAt, type Made, placeOf } from './made.ts';
import { openEdges, type Scatter, scatter } from './triangulate.ts';
import { conditionCode, type MadeScan, type Support, type Unit } from './types.ts';

export interface Scanning {
  readonly support: Support;
  readonly spacingMm: number;
  readonly noiseUm: number;
  readonly unit: Unit;
  readonly maxVertices: number;
  /** Which laying of the points on the surface, and which pose: the first, 0, where left out. */
  readonly laying?: number;
  /** Noise common to neighbours: its share of `noiseUm` and its length, mm; drawn where left out. */
  readonly correlated?: { readonly share: number; readonly lengthMm: number };
}

/** A scan, with what only its maker knows. */
export interface Scanned {
  readonly scan: MadeScan;
  /** The object's own millimetres to the file's. */
  readonly fileFromObject: Similarity;
  readonly spacingMm: number;
}

const mmPerUnit: Readonly<Record<Unit, number>> = { um: 0.001, mm: 1, cm: 10, m: 1000, inch: 25.4 };

/** One scan of an object: irregular triangles, noise, holes, any pose, in the file's unit. */
export function scanOf(made: Made, how: Scanning, chance: Chance): Scanned {
  const spacingMm = affordable(made, how);
  const anew = how.laying ? ` ${how.laying}` : '';
  const flat = scatter(made, how.support, spacingMm, chance.branch(`points${anew}`));
  const body = stand(made, flat, how.support, spacingMm, chance.branch('body'));
  const holes = holesOf(made, flat, spacingMm, chance.branch('holes'));
  const triangles = made.negative ? flipped(body.triangles) : body.triangles;
  const kept = withoutHoles(triangles, holes, flat.points.length / 2);
  const pose = randomPose(chance.branch(`pose${anew}`));
  const noisy = disturbed(made, body.places, how, spacingMm, chance.branch('noise'));
  return { ...written(body, noisy, kept, pose, mmPerUnit[how.unit]), spacingMm };
}

/** The wanted spacing, or the least that keeps the vertices below the limit. */
function affordable(made: Made, { support, spacingMm, maxVertices }: Scanning): number {
  let cells = 0;
  if (support === 'table' && !made.negative) cells = made.piece.length;
  else for (let i = 0; i < made.piece.length; i++) cells += made.piece[i];
  const area = cells * made.lattice.pitch ** 2 * (support === 'closed' ? 2.2 : 1.02);
  return Math.max(spacingMm, Math.sqrt(area / (0.93 * maxVertices)));
}

interface Body {
  /** Noiseless places, object's mm. */
  readonly places: Float64Array;
  readonly design: Float32Array;
  readonly condition: Uint8Array;
  readonly triangles: Uint32Array;
}

/** Raises the scattered points to the surface and closes the body behind it where that is wanted. */
function stand(made: Made, { points, triangles }: Scatter, support: Support, spacing: number, chance: Chance): Body {
  const n = points.length / 2;
  const edges = support === 'closed' ? openEdges(triangles, n) : [];
  const rows = support === 'closed' ? Math.max(1, Math.min(6, Math.round(made.thicknessMm / (3 * spacing)))) : 0;
  const rim = [...new Set(edges.flat())];
  const total = support === 'closed' ? 2 * n + (rows - 1) * rim.length : n;
  const places = new Float64Array(3 * total);
  const design = new Float32Array(2 * total);
  const condition = new Uint8Array(total).fill(conditionCode.body);
  const put = (i: number, x: number, y: number, z: number): void => {
    placeOf(made, x, y, z, places, 3 * i);
    design[2 * i] = x;
    design[2 * i + 1] = y;
  };
  const front = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const x = points[2 * i];
    const y = points[2 * i + 1];
    front[i] = valueAt(made.lattice, made.z, x, y);
    condition[i] = conditionAt(made, x, y);
    put(i, x, y, front[i]);
  }
  if (support !== 'closed') return { places, design, condition, triangles };
  const back = backOf(made, chance);
  const list: number[] = Array.from(triangles);
  for (let i = 0; i < n; i++) put(n + i, points[2 * i], points[2 * i + 1], back(points[2 * i], points[2 * i + 1]));
  for (let i = 0; i < triangles.length; i += 3) list.push(n + triangles[i], n + triangles[i + 2], n + triangles[i + 1]);
  const order = new Map(rim.map((vertex, k) => [vertex, k]));
  const level = (vertex: number, row: number): number =>
    row === 0 ? vertex : row === rows ? n + vertex : 2 * n + (row - 1) * rim.length + (order.get(vertex) ?? 0);
  for (let row = 1; row < rows; row++)
    for (const v of rim) {
      const [x, y] = [points[2 * v], points[2 * v + 1]];
      put(level(v, row), x, y, front[v] + ((back(x, y) - front[v]) * row) / rows);
    }
  for (const [a, b] of edges)
    for (let row = 0; row < rows; row++) {
      list.push(level(b, row), level(a, row), level(a, row + 1));
      list.push(level(b, row), level(a, row + 1), level(b, row + 1));
    }
  return { places, design, condition, triangles: Uint32Array.from(list) };
}

/** The back: rough and domed on wax; on a matrix a plate with a tang, a loop or none. */
function backOf(made: Made, chance: Chance): (x: number, y: number) => number {
  const away = made.negative ? 1 : -1;
  const { halfWidth, halfHeight } = made.outline;
  const rough = randomSurface(chance, 2.5, halfHeight * 1.6 + 8);
  const amplitude = made.negative ? 0.03 : 0.25;
  const handle = chance.choose(['none', 'tang', 'ridge'] as const);
  const tall = handle === 'none' ? 0 : halfWidth * chance.range(0.3, made.negative ? 1 : 0.35);
  const rx = halfWidth * chance.range(0.15, 0.25);
  const ry = handle === 'ridge' ? halfHeight * chance.range(0.6, 0.8) : rx;
  const edge = made.negative ? 2.5 : 0.6;
  return (x, y) => {
    const q = (x / rx) ** 2 + (y / ry) ** 2;
    const dome = 0.3 * made.thicknessMm * Math.max(0, 1 - (x / halfWidth) ** 2 - (y / halfHeight) ** 2);
    return away * (made.thicknessMm + edge + dome + tall * Math.exp(-q * q)) + amplitude * rough(x, y);
  };
}

/** Front vertices that no view reached, or that lie in a patch that did not return light. */
function holesOf(made: Made, { points }: Scatter, spacing: number, chance: Chance): Uint8Array {
  const n = points.length / 2;
  const holes = new Uint8Array(n);
  const views = Array.from({ length: 2 + chance.whole(3) }, () => {
    const tilt = chance.range(0.1, 0.6);
    const turn = chance.range(0, 2 * Math.PI);
    return [Math.sin(tilt) * Math.cos(turn), Math.sin(tilt) * Math.sin(turn), Math.cos(tilt)];
  });
  const up = made.negative ? -1 : 1;
  const grazing = Math.cos((chance.range(74, 84) * Math.PI) / 180);
  const h = made.lattice.pitch;
  const at = (x: number, y: number): number => up * valueAt(made.lattice, made.z, x, y);
  for (let i = 0; i < n; i++) {
    const x = points[2 * i];
    const y = points[2 * i + 1];
    const gx = (at(x + h, y) - at(x - h, y)) / (2 * h);
    const gy = (at(x, y + h) - at(x, y - h)) / (2 * h);
    const norm = Math.hypot(gx, gy, 1);
    const seen = views.some(
      ([vx, vy, vz]) =>
        (vz - gx * vx - gy * vy) / norm > grazing && (Math.hypot(gx, gy) < 0.25 || clear(at, x, y, vx, vy, vz, h)),
    );
    if (!seen) holes[i] = 1;
  }
  for (let k = chance.whole(4); k > 0; k--) {
    const cx = chance.range(-0.9, 0.9) * made.outline.halfWidth;
    const cy = chance.range(-0.9, 0.9) * made.outline.halfHeight;
    const r = chance.range(2, 5) * spacing;
    for (let i = 0; i < n; i++) if (Math.hypot(points[2 * i] - cx, points[2 * i + 1] - cy) < r) holes[i] = 1;
  }
  return holes;
}

/** Whether the ray toward a view leaves the relief free. */
function clear(
  at: (x: number, y: number) => number,
  x: number,
  y: number,
  vx: number,
  vy: number,
  vz: number,
  h: number,
): boolean {
  const z = at(x, y) + 0.02;
  for (let k = 2; k <= 24; k = Math.ceil(k * 1.5)) {
    const t = k * h;
    if (at(x + t * vx, y + t * vy) > z + t * vz) return false;
  }
  return true;
}

const flipped = (triangles: Uint32Array): Uint32Array => {
  const out = triangles.slice();
  for (let i = 0; i < out.length; i += 3) {
    out[i + 1] = triangles[i + 2];
    out[i + 2] = triangles[i + 1];
  }
  return out;
};

function withoutHoles(triangles: Uint32Array, holes: Uint8Array, front: number): Uint32Array {
  const out = new Uint32Array(triangles.length);
  let n = 0;
  for (let i = 0; i < triangles.length; i += 3) {
    const a = triangles[i];
    const b = triangles[i + 1];
    const c = triangles[i + 2];
    if ((a < front && holes[a]) || (b < front && holes[b]) || (c < front && holes[c])) continue;
    out[n++] = a;
    out[n++] = b;
    out[n++] = c;
  }
  return out.slice(0, n);
}

/** White noise along the view, a third as much across it, correlated noise, spikes, and a few vertices far off. */
function disturbed(made: Made, places: Float64Array, how: Scanning, spacing: number, chance: Chance): Float64Array {
  const out = places.slice();
  const sigma = how.noiseUm / 1000;
  const extent = 1.6 * made.outline.halfHeight + 8;
  const length = chance.logRange(2 * spacing, 6);
  const wander = randomSurface(chance, how.correlated?.lengthMm ?? length, extent);
  const share = chance.range(0.2, 1);
  const correlated = sigma * (how.correlated?.share ?? share);
  const spikes = chance.range(0, 0.0004);
  for (let i = 0; i < out.length; i += 3) {
    out[i] += (sigma / 3) * chance.gauss();
    out[i + 1] += (sigma / 3) * chance.gauss();
    out[i + 2] += sigma * chance.gauss() + correlated * wander(places[i], places[i + 1]);
    const chosen = chance.unit();
    if (chosen < spikes) out[i + 2] += chance.range(0.1, 0.5) * chance.choose([-1, 1]);
    else if (chosen > 1 - spikes / 20) out[i + 2] += chance.range(1, 4) * chance.choose([-1, 1]);
  }
  return out;
}

/** Any rotation (uniform over the sphere of quaternions), some centimetres from the origin. */
export function randomPose(chance: Chance): Similarity {
  const q = [chance.gauss(), chance.gauss(), chance.gauss(), chance.gauss()];
  const norm = Math.hypot(...q);
  const rotation = fromQuaternion(q.map((value) => value / norm));
  return { scale: 1, rotation, translation: [40 * chance.gauss(), 40 * chance.gauss(), 40 * chance.gauss()] };
}

/** Lays the object into the file; vertices that no triangle uses are left out. */
function written(body: Body, noisy: Float64Array, triangles: Uint32Array, pose: Similarity, mmPer: number) {
  const number = new Int32Array(body.condition.length).fill(-1);
  let n = 0;
  for (const v of triangles) if (number[v] < 0) number[v] = n++;
  const positions = new Float32Array(3 * n);
  const truePositions = new Float64Array(3 * n);
  const designPlace = new Float32Array(2 * n);
  const conditionPerVertex = new Uint8Array(n);
  for (let v = 0; v < number.length; v++) {
    const to = number[v];
    if (to < 0) continue;
    const p = apply(pose, [noisy[3 * v], noisy[3 * v + 1], noisy[3 * v + 2]]);
    const q = apply(pose, [body.places[3 * v], body.places[3 * v + 1], body.places[3 * v + 2]]);
    for (let axis = 0; axis < 3; axis++) {
      positions[3 * to + axis] = p[axis] / mmPer;
      truePositions[3 * to + axis] = q[axis];
    }
    designPlace[2 * to] = body.design[2 * v];
    designPlace[2 * to + 1] = body.design[2 * v + 1];
    conditionPerVertex[to] = body.condition[v];
  }
  const renumbered = triangles.map((v) => number[v]);
  const bytes = writePly(positions, renumbered);
  return {
    scan: { positions, triangles: renumbered, bytes, conditionPerVertex, truePositions, designPlace },
    fileFromObject: pose,
  };
}

/** 1 where triangles of the image cover a cell of the coarse lattice; edges, back and table do not count. */
export function coveredCells(scan: MadeScan, lattice: Lattice): Uint8Array {
  const covered = new Uint8Array(lattice.width * lattice.height);
  const { triangles: t, designPlace: p, conditionPerVertex: c } = scan;
  const { body } = conditionCode;
  for (let i = 0; i < t.length; i += 3)
    if (c[t[i]] !== body || c[t[i + 1]] !== body || c[t[i + 2]] !== body)
      fillTriangle(covered, lattice, p, t[i], t[i + 1], t[i + 2]);
  return covered;
}

function fillTriangle(covered: Uint8Array, l: Lattice, p: Float32Array, a: number, b: number, c: number): void {
  const ax = p[2 * a];
  const ay = p[2 * a + 1];
  const bx = p[2 * b];
  const by = p[2 * b + 1];
  const cx = p[2 * c];
  const cy = p[2 * c + 1];
  const area = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
  if (area === 0) return;
  const low = Math.max(0, Math.ceil((Math.min(ay, by, cy) - l.bottom) / l.pitch));
  const high = Math.min(l.height - 1, Math.floor((Math.max(ay, by, cy) - l.bottom) / l.pitch));
  const from = Math.max(0, Math.ceil((Math.min(ax, bx, cx) - l.left) / l.pitch));
  const to = Math.min(l.width - 1, Math.floor((Math.max(ax, bx, cx) - l.left) / l.pitch));
  for (let row = low; row <= high; row++)
    for (let column = from; column <= to; column++) {
      const x = l.left + column * l.pitch;
      const y = l.bottom + row * l.pitch;
      const u = ((bx - x) * (cy - y) - (by - y) * (cx - x)) / area;
      const v = ((cx - x) * (ay - y) - (cy - y) * (ax - x)) / area;
      if (u >= -1e-9 && v >= -1e-9 && u + v <= 1 + 1e-9) covered[row * l.width + column] = 1;
    }
}
