import {
  anyPerpendicular,
  apply,
  bandPass,
  columnOf,
  compose,
  cross,
  dilate,
  dot,
  erode,
  type HeightGrid,
  type Mesh,
  normalise,
  removeForm,
  rowOf,
  type Similarity,
  subtract,
  times,
  type Vec3,
  withHeights,
} from '../geometry/index.ts';
import { dominantPlane, heightOver, type Plane } from './plane.ts';
import { type ExtentXY, heightsSeen, type RasterWindow, transformPositions } from './raster.ts';
import { largestRegion } from './region.ts';
import { countOf, type OnTable, objectOnTable } from './table.ts';

/** A roughly plane part of the surface, seen from outside along one direction. */
export interface FlatPart {
  /** Scan → the frame of `grid`: z looks out of the part, the origin lies near its middle, on its dominant plane. */
  readonly partFromScan: Similarity;
  /** Heights over the dominant plane. */
  readonly grid: HeightGrid;
  /** The dominant plane in that frame: heights of `grid` are over it. */
  readonly plane: Plane;
  /** 1 for the cells of `grid` that belong to the part. */
  readonly region: Uint8Array;
  readonly area: number;
  readonly longSide: number;
  /** Mean absolute band-passed relief inside, clipped, in the mesh's unit. */
  readonly detail: number;
  readonly score: number;
}

export const candidateDefaults = {
  /** Cells across the view. */
  cells: 128,
  /** A cell belongs to the dominant plane within this share of the part's size. */
  planeTolerance: 0.015,
  /** Relief may stand this far above or below the plane, as a share of the part's size. */
  reach: 0.12,
  /** Neighbouring cells that differ by more are not joined. */
  step: 0.06,
  /** Wavelengths of engraving, as shares of the part's size: strokes and letters, not the form. */
  bandFrom: 1 / 60,
  bandTo: 1 / 16,
  /** Least mean relief on a face, as a share of its size: a smooth plate or the side of a cube has none; … */
  leastDetail: 2e-5,
  /**
   * … and on a part that rises by more than `domeRise` of its size toward the middle so much of the rise, and no more than a ball needs:
   * smooth lenses and balls show 0.0005 to 0.001 of it.
   */
  domeRise: 0.08,
  leastDetailOfRise: 1.7e-3,
  leastDetailOnBall: 6e-4,
  /** Relief counts for less where it runs one way by more than this: 99 of 100 faces do by less, the sides of breaks by 0.6 to 0.8. */
  oneWay: 0.35,
  /** Flat parts looked at one under another, and the least share of the view that one must have. */
  layers: 3,
  leastLayer: 0.1,
};

/** Right-handed frame looking against `z`: y follows the file's own up (its y axis, or z where that is the view). */
export function frameLookingAt(z: Vec3, origin: Vec3): Similarity {
  const ups: Vec3[] = [
    [0, 1, 0],
    [0, 0, 1],
  ];
  const up = ups.find((candidate) => Math.abs(dot(candidate, z)) < 0.8) ?? anyPerpendicular(z);
  const y = normalise(subtract(up, times(z, dot(up, z))));
  const x = cross(y, z);
  const rotation = [...x, ...y, ...z];
  return { scale: 1, rotation, translation: apply({ scale: -1, rotation, translation: [0, 0, 0] }, origin) };
}

/** Looks along `direction` from outside for the largest flat part, without the table it lies on; null where nothing is seen. */
export function flatPartToward(mesh: Mesh, direction: Vec3, options = candidateDefaults): FlatPart | null {
  const part = flatPartFrom(mesh, frameLookingAt(direction, [0, 0, 0]), options);
  const found = part && objectOnTable(part.grid);
  const object = found && flatPartFrom(meshOver(mesh, part, found), part.partFromScan, options);
  return object && carriesRelief(object) ? object : part;
}

function flatPartFrom(mesh: Mesh, start: Similarity, options: typeof candidateDefaults): FlatPart | null {
  let frame = start;
  // Levelling changes what is seen and where its middle lies; the last look is from the right side.
  for (let looks = 0; ; looks++) {
    const look = lookFrom(mesh, frame, options);
    if (!look) return null;
    if (looks === 2 || (looks > 0 && look.tiltDeg < 0.3)) return look.part;
    frame = look.levelled;
  }
}

/** The triangles that lie over the object of a view and clear of the table. */
function meshOver(
  mesh: Mesh,
  { partFromScan, plane, grid }: FlatPart,
  { plane: table, clearance, object }: OnTable,
): Mesh {
  const p = transformPositions(mesh.positions, partFromScan);
  const near = dilate(object, grid.width);
  const over = new Uint8Array(p.length / 3);
  for (let i = 0, v = 0; i < p.length; i += 3, v++) {
    const [x, y] = [p[i], p[i + 1]];
    const [c, r] = [Math.round(columnOf(grid, x)), Math.round(rowOf(grid, y))];
    if (c < 0 || r < 0 || c >= grid.width || r >= grid.height || !near[r * grid.width + c]) continue;
    over[v] = p[i + 2] - heightOver(plane, x, y) - heightOver(table, x, y) > clearance ? 1 : 0;
  }
  const triangles = new Uint32Array(mesh.triangles.length);
  let n = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = mesh.triangles.subarray(t, t + 3);
    if (over[a] && over[b] && over[c]) triangles.set([a, b, c], n);
    if (over[a] && over[b] && over[c]) n += 3;
  }
  return { ...mesh, triangles: triangles.subarray(0, n) };
}

interface Look {
  readonly part: FlatPart;
  /** The frame after levelling on what was seen, and by how much that turns it. */
  readonly levelled: Similarity;
  readonly tiltDeg: number;
}

/** One look: of the flat parts seen, which may lie above one another like a seal on a table, the best-scored. */
function lookFrom(mesh: Mesh, frame: Similarity, options: typeof candidateDefaults): Look | null {
  const grid = heightsSeen(mesh, frame, (extent) => viewOf(extent(), options.cells));
  const seen = countOf(grid.mask);
  let rest = grid;
  let best: Look | null = null;
  for (let k = 0; k < options.layers; k++) {
    const look = largestPart(rest, frame, options);
    if (!look || look.part.area < options.leastLayer * seen * grid.pitch ** 2) break;
    if (!best || look.part.score > best.part.score) best = look;
    const { region } = look.part;
    rest = withHeights(
      rest,
      rest.z,
      rest.mask.map((value, i) => (region[i] ? 0 : value)),
    );
  }
  return best;
}

/** The largest piece near the plane that most of the grid lies on. */
function largestPart(grid: HeightGrid, frame: Similarity, options: typeof candidateDefaults): Look | null {
  const size = Math.sqrt(countOf(grid.mask)) * grid.pitch;
  const plane = dominantPlane(grid, options.planeTolerance * size);
  if (!plane) return null;
  const level = above(grid, plane);
  const region = largestRegion(level, options.reach * size, options.step * size);
  const { area, centre, longSide } = extentOf(grid, region);
  if (area === 0) return null;
  const band = reliefBand(withHeights(level, level.z, region), longSide, options);
  const detail = meanRelief(band);
  const score = area * detail * Math.min(1, (1 - oneWay(band)) / (1 - options.oneWay));
  const normal = normalise([-plane.b, -plane.c, 1]);
  const middle: Vec3 = [centre[0], centre[1], plane.a + plane.b * centre[0] + plane.c * centre[1]];
  return {
    part: { partFromScan: frame, grid: level, plane, region, area, longSide, detail, score },
    levelled: compose(levelling(normal, middle), frame),
    tiltDeg: (Math.acos(Math.min(1, normal[2])) * 180) / Math.PI,
  };
}

/** The smallest turn that makes `normal` the z axis, with `middle` as the new origin. */
function levelling(normal: Vec3, middle: Vec3): Similarity {
  const y = normalise(subtract([0, 1, 0], times(normal, normal[1])));
  const rotation = [...cross(y, normal), ...y, ...normal];
  return { scale: 1, rotation, translation: apply({ scale: -1, rotation, translation: [0, 0, 0] }, middle) };
}

function viewOf(extent: ExtentXY, cells: number): RasterWindow {
  const pitch = Math.max(extent.xMax - extent.xMin, extent.yMax - extent.yMin) / cells || 1;
  return { ...extent, pitch };
}

function above(grid: HeightGrid, plane: Plane): HeightGrid {
  const z = new Float32Array(grid.z.length);
  for (let row = 0, i = 0; row < grid.height; row++)
    for (let col = 0; col < grid.width; col++, i++)
      if (grid.mask[i])
        z[i] =
          grid.z[i] - (plane.a + plane.b * (grid.left + col * grid.pitch) + plane.c * (grid.top - row * grid.pitch));
  return withHeights(grid, z);
}

function extentOf(grid: HeightGrid, region: Uint8Array) {
  let [left, right, top, bottom, count] = [Infinity, -Infinity, Infinity, -Infinity, 0];
  for (let row = 0, i = 0; row < grid.height; row++)
    for (let col = 0; col < grid.width; col++, i++) {
      if (!region[i]) continue;
      count++;
      left = Math.min(left, col);
      right = Math.max(right, col);
      top = Math.min(top, row);
      bottom = Math.max(bottom, row);
    }
  const { pitch } = grid;
  return {
    area: count * pitch * pitch,
    centre: [grid.left + ((left + right) / 2) * pitch, grid.top - ((top + bottom) / 2) * pitch] as const,
    longSide: Math.max(right - left, bottom - top) * pitch,
  };
}

/**
 * Whether relief stands on the part at all. Its second-order form is taken off first, and from a strong dome more is
 * asked: the curve of a ball leaks into the band as much as faint engraving does, that of a lens by as much less as it is lower. Shares of the part's size.
 */
export function carriesRelief(part: FlatPart, options = candidateDefaults): boolean {
  const { detail, coefficients } = removeForm(withHeights(part.grid, part.grid.z, part.region), 2);
  const rise = ((Math.abs(coefficients[3]) + Math.abs(coefficients[5])) / 8) * part.longSide;
  const onDome = Math.min(options.leastDetailOnBall, options.leastDetailOfRise * rise);
  const least = rise > options.domeRise ? onDome : options.leastDetail;
  return meanRelief(reliefBand(detail, part.longSide, options)) >= least * part.longSide;
}

/** Band-passed relief, and the cells inside its edge. */
function reliefBand(part: HeightGrid, size: number, options: typeof candidateDefaults): HeightGrid {
  const band = bandPass(part, options.bandFrom * size, options.bandTo * size);
  const inner = erode(part.mask, part.width, Math.max(2, Math.round((0.03 * size) / part.pitch)));
  return withHeights(band, band.z, inner);
}

/** Mean |relief|, each value clipped at four times the median so that one edge cannot carry it. */
function meanRelief({ z, mask }: HeightGrid): number {
  const values = z.filter((_, i) => mask[i] === 1).map(Math.abs);
  if (values.length < 50) return 0;
  values.sort();
  const clip = 4 * values[values.length >> 1];
  return values.reduce((sum, value) => sum + Math.min(value, clip), 0) / values.length;
}

/**
 * How far the relief runs one way only, 0 to 1: the mean of its gradients with their angles doubled, over their mean length (Bigün and
 * Granlund 1987). A design turns every way; the side of a break, drawn down from its edge, and a turned rim do not.
 */
export function oneWay({ z, mask, width }: HeightGrid): number {
  let [cos, sin, sum] = [0, 0, 0];
  for (let i = width; i < z.length - width; i++) {
    if (!mask[i]) continue;
    const x = z[i + 1] - z[i - 1];
    const y = z[i + width] - z[i - width];
    const length = Math.hypot(x, y) || 1;
    cos += (x * x - y * y) / length;
    sin += (2 * x * y) / length;
    sum += length;
  }
  return sum > 0 ? Math.hypot(cos, sin) / sum : 0;
}
