import { layTriangles, parentsOfJoined } from '../../../kernels/index.ts';
import { areaAt } from './totals.ts';

/** A piece below this share of the area may be a stray one. */
const strayShare = 0.01;
/** If small pieces together come to more than this share, they are the surface itself, broken up: all stay. */
const mostStray = 0.05;
/** A small piece within this share of the surface's diagonal belongs to it, as an island in a hole does. */
const nearShare = 0.02;

/** Joins the vertices of every triangle; union by the lower number, paths halved on the way. */
export class Union {
  readonly parent: Int32Array;

  constructor(parent: Int32Array) {
    this.parent = parent;
  }

  find(vertex: number): number {
    const { parent } = this;
    let v = vertex;
    while (parent[v] !== v) {
      parent[v] = parent[parent[v]];
      v = parent[v];
    }
    return v;
  }

  join(a: number, b: number): void {
    const { parent } = this;
    if (parent[a] === parent[b]) return;
    const x = this.find(a);
    const y = this.find(b);
    if (x < y) parent[y] = x;
    else parent[x] = y;
  }
}

/** By a kernel where the triangles are laid out for it. */
export const joinTriangles = (
  vertexCount: number,
  triangles: Uint32Array,
  laid = layTriangles(triangles, vertexCount),
): Union => (laid ? new Union(parentsOfJoined(laid)) : joinPlainly(vertexCount, triangles));

/** The same without the kernel, whose referee this is. */
export function joinPlainly(vertexCount: number, triangles: Uint32Array): Union {
  const union = new Union(Int32Array.from({ length: vertexCount }, (_, i) => i));
  for (let t = 0; t < triangles.length; t += 3) {
    union.join(triangles[t], triangles[t + 1]);
    union.join(triangles[t], triangles[t + 2]);
  }
  return union;
}

/** True where triangles lie in more than one piece, which is where more than one root has followers. */
export function severalPieces(union: Union): boolean {
  const { parent } = union;
  let root = -1;
  for (let vertex = 0; vertex < parent.length; vertex++) {
    if (parent[vertex] === vertex) continue;
    if (root < 0) root = union.find(vertex);
    if (parent[vertex] !== root && parent[parent[vertex]] === parent[vertex]) return true;
  }
  return false;
}

export interface StrayResult {
  readonly triangles: Uint32Array;
  readonly strayPieces: number;
  readonly strayTriangles: number;
}

/**
 * Leaves out stray pieces: connected pieces below 1 % of the area that lie away from the pieces above it, unless the
 * small ones together exceed 5 %. Doubled shells, overlapping layers and islands in holes stay.
 */
export function dropStrayPieces(p: Float32Array, triangles: Uint32Array, union: Union): StrayResult {
  const areas = areaOfPieces(p, triangles, union);
  const total = areas.reduce((sum, area) => sum + area, 0);
  const stray = findStray(p, union, areas, strayShare * total);
  let strayArea = 0;
  let strayPieces = 0;
  for (let root = 0; root < stray.length; root++)
    if (stray[root]) {
      strayArea += areas[root];
      strayPieces++;
    }
  if (strayPieces === 0 || strayArea > mostStray * total) return { triangles, strayPieces: 0, strayTriangles: 0 };
  let kept = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    if (stray[union.find(triangles[t])]) continue;
    triangles[kept] = triangles[t];
    triangles[kept + 1] = triangles[t + 1];
    triangles[kept + 2] = triangles[t + 2];
    kept += 3;
  }
  return { triangles: triangles.slice(0, kept), strayPieces, strayTriangles: (triangles.length - kept) / 3 };
}

/** Area by root vertex; zero for all others. */
function areaOfPieces(p: Float32Array, triangles: Uint32Array, union: Union): Float64Array {
  const areas = new Float64Array(union.parent.length);
  for (let t = 0; t < triangles.length; t += 3) areas[union.find(triangles[t])] += areaAt(p, triangles, t);
  return areas;
}

/** 1 by root vertex for small pieces of which less than half the vertices lie near a large piece. */
function findStray(p: Float32Array, union: Union, areas: Float64Array, smallArea: number): Uint8Array {
  const near = new Int32Array(areas.length);
  const stray = new Uint8Array(areas.length);
  const cells = new NearCells(p, (vertex) => areas[union.find(vertex)] >= smallArea);
  for (let vertex = 0; vertex < areas.length; vertex++) {
    const root = union.find(vertex);
    // A root without area belongs to a vertex that no triangle uses.
    if (areas[root] < smallArea && areas[root] > 0) near[root] += cells.has(vertex) ? 1 : -1;
  }
  if (!cells.empty) for (let root = 0; root < near.length; root++) if (near[root] < 0) stray[root] = 1;
  return stray;
}

/** Cells of 2 % of the large pieces' diagonal, marked where a vertex of a large piece lies within one cell. */
class NearCells {
  readonly empty: boolean;
  private readonly p: Float32Array;
  private readonly low = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  private readonly size: readonly number[];
  private readonly cell: number;
  private readonly marks: Uint8Array;

  constructor(p: Float32Array, isLarge: (vertex: number) => boolean) {
    this.p = p;
    const high = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let i = 0; i < p.length; i++) {
      const axis = i % 3;
      if (p[i] < this.low[axis] && isLarge((i - axis) / 3)) this.low[axis] = p[i];
      if (p[i] > high[axis] && isLarge((i - axis) / 3)) high[axis] = p[i];
    }
    this.empty = !(high[0] >= this.low[0]);
    const extent = high.map((value, axis) => (this.empty ? 0 : value - this.low[axis]));
    this.cell = Math.hypot(...extent) * nearShare || 1;
    // One cell of margin on every side, so that marking neighbours needs no bounds.
    this.size = extent.map((length) => Math.floor(length / this.cell) + 3);
    this.marks = new Uint8Array(this.size[0] * this.size[1] * this.size[2]);
    for (let vertex = 0; vertex * 3 < p.length; vertex++) if (isLarge(vertex)) this.markAround(this.placeOf(vertex));
  }

  has(vertex: number): boolean {
    const place = this.placeOf(vertex);
    return place >= 0 && this.marks[place] > 0;
  }

  /** The vertex's cell, or −1 outside. */
  private placeOf(vertex: number): number {
    const { p, low, cell, size } = this;
    const x = Math.floor((p[vertex * 3] - low[0]) / cell) + 1;
    const y = Math.floor((p[vertex * 3 + 1] - low[1]) / cell) + 1;
    const z = Math.floor((p[vertex * 3 + 2] - low[2]) / cell) + 1;
    if (x < 0 || y < 0 || z < 0 || x >= size[0] || y >= size[1] || z >= size[2]) return -1;
    return (z * size[1] + y) * size[0] + x;
  }

  private markAround(centre: number): void {
    const { size, marks } = this;
    // 2 says that the neighbours are marked already.
    if (marks[centre] === 2) return;
    for (let dz = -1; dz <= 1; dz++)
      for (let dy = -1; dy <= 1; dy++)
        for (let dx = -1; dx <= 1; dx++) {
          const place = centre + (dz * size[1] + dy) * size[0] + dx;
          if (marks[place] === 0) marks[place] = 1;
        }
    marks[centre] = 2;
  }
}
