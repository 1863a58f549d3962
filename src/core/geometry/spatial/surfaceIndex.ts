import { areaVector } from '../mesh/areaVector.ts';
import type { Mesh } from '../mesh/mesh.ts';
import { ownRoom, type Room, sharedRoom } from '../room.ts';
import { anyPerpendicular, cross, normalise, type Vec3 } from '../vector.ts';
import type { Help } from './helpIndex.ts';
import { splitByReach } from './splitByReach.ts';
import { cutIntoBlocks } from './surfaceBlocks.ts';
import { binIntoColumns, type Columns } from './surfaceColumns.ts';
import { buildPyramid } from './surfacePyramid.ts';
import { openSlots } from './surfaceSlots.ts';

/**
 * A triangle surface prepared for closest-point queries: flat typed arrays, so that it moves between threads.
 *
 * The engraved face of a seal is nearly a height field. So the triangles are binned by centroid into square columns over
 * a plane (axes u and v, third axis w), each column is cut into blocks of at most `blockSize` triangles from low to high
 * w, and above the columns stands a pyramid, each level halving rows and columns. Every node carries the true bounds
 * of its triangles in (u, v, w), so the answers are exact for any surface; only the speed assumes that it is flattish.
 * The few triangles much longer than the rest stand in a coarser grid of their own: in one grid the longest of all would
 * widen every search by its own length. Designs that were tried, with their speeds: docs/compare.md.
 */
export interface SurfaceIndex {
  readonly mesh: Mesh;
  /** Vertex normals of the mesh, xyz triples, where given. */
  readonly normals?: Float32Array;
  /** Rows are the axes u, v, w: (u, v, w) = frame · (x, y, z). */
  readonly frame: Float64Array;
  /** The columns of the ordinary triangles and, where there are some, those of the long ones. */
  readonly grids: readonly ColumnGrid[];
  /** Slot → triangle of the mesh. */
  readonly triangleOf: Uint32Array;
  /** Slot → open edges and corners, bits as in `borderEdges`. */
  readonly open: Uint8Array;
  /** Greatest reach of a triangle beyond its own centroid in u or v, mm. */
  readonly reach: number;
  /** Distances that differ by less count as equal, mm. */
  readonly tie: number;
}

/** Columns over the plane, cut into blocks, and the pyramid above them. Slots are numbered through all grids. */
export interface ColumnGrid {
  /** Corner of the column grid in u and v, and the side of a column, mm. */
  readonly left: number;
  readonly low: number;
  readonly cell: number;
  /** Columns, rows and first node of each level of the pyramid; level 0 are the columns of triangles. */
  readonly levelWidth: Int32Array;
  readonly levelHeight: Int32Array;
  readonly levelStart: Int32Array;
  /** Six per node: least u, v, w, then greatest. An empty node has least above greatest. */
  readonly bounds: Float32Array;
  /** First block of each column, and one past the last. */
  readonly columnStart: Int32Array;
  /** First slot of each block, and one past the last. */
  readonly blockStart: Int32Array;
  /** Six per block, as `bounds`. */
  readonly blockBounds: Float32Array;
  /** Greatest reach of a triangle of this grid beyond its own centroid in u or v, mm. */
  readonly reach: number;
}

export interface SurfaceIndexOptions {
  /** Interpolated for the compatibility test and for the answer; else the triangle's own normal is used. */
  readonly normals?: Float32Array;
  /** Which triangles to index (those of the face side); all where not given. Open edges are always those of the whole mesh. */
  readonly triangles?: Uint32Array;
  /** Direction that the face looks in; the main direction of the normals where not given. Matters for speed only. */
  readonly axis?: Vec3;
  /** Another thread that takes a part of the work; the mesh must lie in memory that it sees (`sharedMesh`). */
  readonly help?: Help;
}

/** Time O(triangles); see `SurfaceIndex`. A mesh without usable triangles gives an index that answers nothing. */
export function buildSurfaceIndex(mesh: Mesh, options: SurfaceIndexOptions = {}): SurfaceIndex {
  const chosen = options.triangles ?? upTo(mesh.triangles.length / 3);
  const frame = frameAlong(options.axis ?? mainNormalDirection(mesh, chosen));
  const room = options.help ? sharedRoom : ownRoom;
  const turned = turnedPositions(mesh.positions, frame, room);
  const parts = splitByReach(mesh.triangles, turned, chosen).map((part) =>
    binIntoColumns(mesh.triangles, turned, part, room),
  );
  let slots = 0;
  const grids = parts.map((columns) => {
    const grid = gridOf(columns, mesh.triangles, turned, slots, room, options.help);
    slots += columns.order.length;
    return grid;
  });
  const order =
    parts.length === 1
      ? parts[0].order
      : joined(
          parts.map((columns) => columns.order),
          room,
        );
  return {
    mesh,
    ...(options.normals && { normals: options.normals }),
    frame,
    grids,
    open: openSlots(mesh, order),
    triangleOf: order,
    reach: Math.max(...grids.map((grid) => grid.reach)),
    tie: 1e-14 * Math.max(...parts.map((columns) => columns.extent)),
  };
}

/** Sorts `columns.order` within each column on the way; its first triangle comes to stand in `firstSlot`. */
function gridOf(
  columns: Columns,
  triangles: Uint32Array,
  turned: Float32Array,
  firstSlot: number,
  room: Room,
  help?: Help,
): ColumnGrid {
  const { left, low, cell, reach } = columns;
  const blocks = cutIntoBlocks(columns, triangles, turned, room, help);
  const pyramid = buildPyramid(columns, blocks);
  for (let k = 0; k < blocks.blockStart.length; k++) blocks.blockStart[k] += firstSlot;
  return { left, low, cell, ...pyramid, ...blocks, reach };
}

function joined(lists: readonly Uint32Array[], room: Room): Uint32Array {
  const all = new Uint32Array(room(lists.reduce((sum, list) => sum + list.byteLength, 0)));
  let at = 0;
  for (const list of lists) {
    all.set(list, at);
    at += list.length;
  }
  return all;
}

/** 0, 1, 2 … below `count`. */
function upTo(count: number): Uint32Array {
  const all = new Uint32Array(count);
  for (let i = 0; i < count; i++) all[i] = i;
  return all;
}

/** Rows u, v, w with w along `axis`: a right-handed frame. */
function frameAlong(axis: Vec3): Float64Array {
  const w = normalise(axis);
  const u = anyPerpendicular(w);
  return Float64Array.of(...u, ...cross(w, u), ...w);
}

/**
 * The direction that most of the area faces, front or back: main eigenvector of Σ n nᵀ / ‖n‖ by power iteration, n the
 * triangles' area vectors. A body with no preferred direction gets any.
 */
function mainNormalDirection(mesh: Mesh, chosen: Uint32Array): Vec3 {
  const m = normalMoments(mesh, chosen);
  let v: Vec3 = normalise([0.3, 0.5, 0.8]);
  for (let k = 0; k < 60; k++) {
    const [x, y, z] = v;
    const next = normalise([
      m[0] * x + m[1] * y + m[2] * z,
      m[1] * x + m[3] * y + m[4] * z,
      m[2] * x + m[4] * y + m[5] * z,
    ]);
    if (!(Math.hypot(...next) > 0)) break;
    v = next;
  }
  return v;
}

/** Σ n nᵀ / ‖n‖ of some of the triangles: xx, xy, xz, yy, yz, zz. */
function normalMoments({ positions: p, triangles: t }: Mesh, chosen: Uint32Array): Float64Array {
  const m = new Float64Array(6);
  const n = new Float64Array(3);
  const step = Math.max(1, Math.floor(chosen.length / 8_000));
  for (let i = 0; i < chosen.length; i += step) {
    areaVector(p, t, 3 * chosen[i], n);
    const x = n[0];
    const y = n[1];
    const z = n[2];
    const size = Math.hypot(x, y, z);
    if (!(size > 0)) continue;
    m[0] += (x * x) / size;
    m[1] += (x * y) / size;
    m[2] += (x * z) / size;
    m[3] += (y * y) / size;
    m[4] += (y * z) / size;
    m[5] += (z * z) / size;
  }
  return m;
}

function turnedPositions(p: Float32Array, f: Float64Array, room: Room): Float32Array {
  const out = new Float32Array(room(p.byteLength));
  for (let i = 0; i < p.length; i += 3) {
    const x = p[i];
    const y = p[i + 1];
    const z = p[i + 2];
    out[i] = f[0] * x + f[1] * y + f[2] * z;
    out[i + 1] = f[3] * x + f[4] * y + f[5] * z;
    out[i + 2] = f[6] * x + f[7] * y + f[8] * z;
  }
  return out;
}
