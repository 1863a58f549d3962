import type { Face } from '../../face/index.ts';
import { chosenModel, faceMotion } from '../../fit/index.ts';
import {
  apply,
  compose,
  type GridFrame,
  gridOn,
  type HeightGrid,
  identity,
  invert,
  rotate,
  type Similarity,
  turnedClockwise,
  turnOver,
} from '../../geometry/index.ts';
import { standing, uprightAlone } from '../../read/index.ts';
import type { Pair } from '../input.ts';
import { uprightOf } from '../upright.ts';
import { type LitRelief, lit } from './lit.ts';

/**
 * The frame of every plate: the reference's face frame in the impression's sense, turned upright; x right, y up the design,
 * z toward the reader. A negative is turned over to get there.
 */
export interface Plates {
  /** How far the plates are turned clockwise against the reference's face frame in the impression's sense. */
  readonly turnDeg: number;
  readonly plateFromReference: Similarity;
  /** At the subject's own size: the fit's turn and place, its scale left out. */
  readonly plateFromSubject: Similarity;
  /** Both reliefs on the same cells, each in the impression's sense and at its own size, under one lamp. */
  readonly reference: LitRelief;
  readonly subject: LitRelief;
  /** The reference alone, filling its picture: what maps are drawn on. */
  readonly ground: LitRelief;
  /** Rims in the plates' frame, x, y pairs, mm. */
  readonly referenceRim: Float64Array;
  readonly subjectRim: Float64Array;
}

export const plateDefaults = {
  /** Cells across the wider way; at most half as many again upward. */
  across: 400,
  /** Empty edge, as a share of the face. */
  margin: 0.025,
};

/** Lays both faces on one grid. Without a fit each lies as it was found, centred. */
export function makePlates(comparison: Pair, across = plateDefaults.across): Plates {
  const { turnDeg } = uprightOf(comparison);
  const plateFromReference = compose(turnedClockwise(turnDeg), impressionSense(comparison.reference.face));
  const plateFromSubject = placeSubject(comparison, plateFromReference);
  const referenceRim = moveRim(comparison.reference.face.outline.polygon, plateFromReference);
  const subjectRim = moveRim(comparison.subject.face.outline.polygon, plateFromSubject);
  const window = windowOf([referenceRim, subjectRim], across);
  const own = windowOf([referenceRim], across);
  const reliefOn = (cells: GridFrame): LitRelief =>
    lit(layOn(cells, comparison.reference.face.detail, plateFromReference));
  const reference = reliefOn(window);
  return {
    turnDeg,
    plateFromReference,
    plateFromSubject,
    reference,
    ground: own.pitch < 0.9 * window.pitch ? reliefOn(own) : reference,
    subject: lit(layOn(window, comparison.subject.face.detail, plateFromSubject)),
    referenceRim,
    subjectRim,
  };
}

/** Plates ← face of one scan alone. */
export const impressionSense = (face: Face): Similarity => (face.sense === 'intaglio' ? turnOver : identity);

/** x ↦ R x + t / s: where the fit puts the subject, at the subject's own size. */
function placeSubject({ reference, subject, fit }: Pair, plateFromReference: Similarity): Similarity {
  const model = fit.found ? chosenModel(fit) : undefined;
  if (!model)
    return compose(turnedClockwise(uprightAlone(standing(subject.face)).turnDeg), impressionSense(subject.face));
  const motion = compose(plateFromReference, faceMotion(reference.face, subject.face, model));
  const [x, y, z] = motion.translation;
  return { scale: 1, rotation: motion.rotation, translation: [x / motion.scale, y / motion.scale, z / motion.scale] };
}

function moveRim(polygon: Float64Array, plateFromFace: Similarity): Float64Array {
  const out = new Float64Array(polygon.length);
  for (let i = 0; i < polygon.length; i += 2) {
    const [x, y] = apply(plateFromFace, [polygon[i], polygon[i + 1], 0]);
    out[i] = x;
    out[i + 1] = y;
  }
  return out;
}

function windowOf(rims: readonly Float64Array[], across: number): GridFrame {
  let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const rim of rims)
    for (let i = 0; i < rim.length; i += 2) {
      left = Math.min(left, rim[i]);
      right = Math.max(right, rim[i]);
      bottom = Math.min(bottom, rim[i + 1]);
      top = Math.max(top, rim[i + 1]);
    }
  const edge = plateDefaults.margin * Math.max(right - left, top - bottom);
  const [wide, high] = [right - left + 2 * edge, top - bottom + 2 * edge];
  const pitch = Math.max(wide / across, high / (1.5 * across));
  return {
    left: left - edge,
    top: top + edge,
    width: Math.floor(wide / pitch) + 1,
    height: Math.floor(high / pitch) + 1,
    pitch,
  };
}

/**
 * A relief on the window's cells: looked up where the motion took it from (bilinear, where all four neighbours carry
 * data), averaged first where the window is coarser, with the sign of the side that faces the reader. The relief's
 * slight tilt after a fit is left out.
 */
export function layOn(window: GridFrame, grid: HeightGrid, plateFromFace: Similarity): HeightGrid {
  const source = meanBlocks(grid, Math.floor(window.pitch / grid.pitch + 0.3));
  const sign = rotate(plateFromFace.rotation, [0, 0, 1])[2] < 0 ? -1 : 1;
  const z = new Float32Array(window.width * window.height);
  const mask = new Uint8Array(z.length);
  const laid = gridOn(window, z, mask);
  const cells = Float64Array.from(cellsOfSource(window, source, invert(plateFromFace)));
  for (let row = 0; row < window.height; row++) layRow(laid, row, source, cells, sign);
  return laid;
}

function layRow(
  { width: across, z, mask }: HeightGrid,
  row: number,
  source: HeightGrid,
  cells: Float64Array,
  sign: number,
): void {
  const { width, height } = source;
  for (let col = 0, i = row * across; col < across; col++, i++) {
    const c = cells[0] + cells[1] * col + cells[2] * row;
    const r = cells[3] + cells[4] * col + cells[5] * row;
    if (!(c >= 0 && r >= 0 && c < width - 1 && r < height - 1)) continue;
    const k = Math.floor(r) * width + Math.floor(c);
    if (!(source.mask[k] & source.mask[k + 1] & source.mask[k + width] & source.mask[k + width + 1])) continue;
    const u = c - Math.floor(c);
    const v = r - Math.floor(r);
    const above = source.z[k] + u * (source.z[k + 1] - source.z[k]);
    const below = source.z[k + width] + u * (source.z[k + width + 1] - source.z[k + width]);
    z[i] = sign * (above + v * (below - above));
    mask[i] = 1;
  }
}

/** Column and row in the source of a cell of the window: c₀ + cₓ·col + c_y·row, and the same for the row. */
function cellsOfSource(window: GridFrame, source: GridFrame, back: Similarity): number[] {
  const [a, b, , c, d] = back.rotation.map((value) => (value * back.scale) / source.pitch);
  const { left, top, pitch } = window;
  const [tx, ty] = back.translation;
  return [
    a * left + b * top + (tx - source.left) / source.pitch,
    a * pitch,
    -b * pitch,
    (source.top - ty) / source.pitch - c * left - d * top,
    -c * pitch,
    d * pitch,
  ];
}

/** Means over blocks of k × k cells, of those that carry data, where at least half of them do. */
export function meanBlocks(grid: HeightGrid, k: number): HeightGrid {
  if (k < 2) return grid;
  const width = Math.max(1, Math.floor(grid.width / k));
  const height = Math.max(1, Math.floor(grid.height / k));
  const z = new Float32Array(width * height);
  const mask = new Uint8Array(width * height);
  for (let row = 0, i = 0; row < height; row++)
    for (let col = 0; col < width; col++, i++) {
      let sum = 0;
      let count = 0;
      for (let r = row * k; r < (row + 1) * k; r++)
        for (let at = r * grid.width + col * k, end = at + k; at < end; at++)
          if (grid.mask[at]) {
            sum += grid.z[at];
            count++;
          }
      if (2 * count < k * k) continue;
      z[i] = sum / count;
      mask[i] = 1;
    }
  const shift = ((k - 1) / 2) * grid.pitch;
  return { width, height, pitch: grid.pitch * k, left: grid.left + shift, top: grid.top - shift, z, mask };
}
