import type { Face } from '../face/index.ts';
import {
  apply,
  columnOf,
  type HeightGrid,
  invert,
  rotate,
  rowOf,
  sampleCells,
  sampleCellsCubic,
  xOf,
  yOf,
} from '../geometry/index.ts';
import { faceMotion } from './faceMotion.ts';
import type { FitModel } from './types.ts';
import { unbend } from './warp.ts';

/** The subject's detail as seen from cells over the reference's face, sense and size of the reference. */
export interface SubjectSurface {
  /** Height at a place in cells, mm, linear between the subject's own cells; NaN without data. */
  at(col: number, row: number): number;
  /** The same, cubic where the subject has data all around, so that crests keep their height. */
  sharpAt(col: number, row: number): number;
}

/** Cells between the places that are worked out in full; between them the way is straight to within a micrometre. */
const latticeCells = 8;

/**
 * The subject's surface over the cells of `onto`, under a model of the fit: heights times the size ratio, with the sign that the
 * turning over gives them. `onto` runs as the reference's face frame does, or, `turned`, against its x and its height.
 */
export function subjectSurface(
  onto: HeightGrid,
  turned: boolean,
  reference: Face,
  subject: Face,
  model: FitModel,
): SubjectSurface {
  const faceFromFace = faceMotion(reference, subject, model);
  const { detail } = subject;
  const up = rotate(faceFromFace.rotation, [0, 0, 1])[2] < 0 ? -1 : 1;
  const factor = (turned ? -up : up) * faceFromFace.scale;
  const lattice = placeLattice(onto, turned, detail, invert(faceFromFace), model);
  const place = new Float64Array(2);
  return {
    at: (col, row) => {
      placeAt(lattice, col, row, place);
      return factor * sampleCells(detail, place[0], place[1]);
    },
    sharpAt: (col, row) => {
      placeAt(lattice, col, row, place);
      return factor * sampleCellsCubic(detail, place[0], place[1]);
    },
  };
}

interface Lattice {
  readonly width: number;
  readonly height: number;
  /** Column and row of the subject's detail under each node. */
  readonly places: Float64Array;
}

function placeLattice(
  onto: HeightGrid,
  turned: boolean,
  detail: HeightGrid,
  back: ReturnType<typeof invert>,
  model: FitModel,
): Lattice {
  const width = Math.ceil(onto.width / latticeCells) + 2;
  const height = Math.ceil(onto.height / latticeCells) + 2;
  const places = new Float64Array(2 * width * height);
  for (let r = 0, k = 0; r < height; r++)
    for (let c = 0; c < width; c++, k += 2) {
      const x = xOf(onto, c * latticeCells);
      const [u, v] = unbend(model, turned ? -x : x, yOf(onto, r * latticeCells));
      const p = apply(back, [u, v, 0]);
      places[k] = columnOf(detail, p[0]);
      places[k + 1] = rowOf(detail, p[1]);
    }
  return { width, height, places };
}

function placeAt({ width, height, places }: Lattice, col: number, row: number, out: Float64Array): void {
  const c = Math.max(0, Math.min(width - 1.001, col / latticeCells));
  const r = Math.max(0, Math.min(height - 1.001, row / latticeCells));
  const c0 = Math.floor(c);
  const r0 = Math.floor(r);
  const k = 2 * (r0 * width + c0);
  const below = k + 2 * width;
  const u = c - c0;
  const v = r - r0;
  for (let t = 0; t < 2; t++)
    out[t] =
      (1 - v) * ((1 - u) * places[k + t] + u * places[k + 2 + t]) +
      v * ((1 - u) * places[below + t] + u * places[below + 2 + t]);
}
