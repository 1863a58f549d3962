import { type BestShift, bestShiftKernel } from '../../kernels/index.ts';
import { correlationOfSums, type HeightGrid } from '../geometry/index.ts';

/** A whole shift of the subject's place against the reference's, columns and rows. */
export interface Shift {
  readonly dc: number;
  readonly dr: number;
  /** Not on the edge of what was looked at. */
  readonly inside: boolean;
}

export interface ShiftOptions {
  /** Greatest shift looked at, cells. */
  readonly reach: number;
  /** Heights beyond these, mm, on reference and subject, count as these until the patch has found its place: a cut is deeper than any stroke. */
  readonly clipMm: readonly [number, number];
  /** Shift added before the search, cells: where the patch cannot be, for the null. */
  readonly offset?: readonly [number, number];
}

/**
 * The whole shift, of those within the reach, at which the cells of a patch correlate best with the subject, heights clipped; null
 * where none has data enough. By a compiled kernel where the engine lets it run, which gives the same numbers as
 * `bestShiftPlainly`.
 */
export function bestShift(a: HeightGrid, b: HeightGrid, cells: Int32Array, options: ShiftOptions): Shift | null {
  const { reach, clipMm, offset = [0, 0] } = options;
  const heights = new Float32Array(cells.length);
  // The kernel holds float32: the clip is rounded to it, here and in the plain code.
  const [mostA, mostB] = clipMm.map(Math.fround);
  for (let k = 0; k < cells.length; k++) heights[k] = clamp(a.z[cells[k]], mostA);
  const found = kernelOf(b, mostB)?.at(cells, heights, ...offset, reach);
  if (!found) return bestShiftPlainly(a, b, cells, options);
  const [most, dc, dr] = found;
  if (!(most > -1)) return null;
  return { dc, dr, inside: Math.abs(dc - offset[0]) < reach && Math.abs(dr - offset[1]) < reach };
}

/** The last subject's kernel: many patches are looked for on one. */
const kernels = new WeakMap<HeightGrid, { readonly most: number; readonly kernel: BestShift | null }>();

function kernelOf(subject: HeightGrid, most: number): BestShift | null {
  const known = kernels.get(subject);
  if (known?.most === most) return known.kernel;
  const kernel = bestShiftKernel(subject, most);
  kernels.set(subject, { most, kernel });
  return kernel;
}

/** The same without the kernel. */
export function bestShiftPlainly(
  a: HeightGrid,
  b: HeightGrid,
  cells: Int32Array,
  { reach, clipMm, offset = [0, 0] }: ShiftOptions,
): Shift | null {
  let best: Shift | null = null;
  let most = -2;
  for (let dr = -reach; dr <= reach; dr++)
    for (let dc = -reach; dc <= reach; dc++) {
      const r = plainCorrelation(a, b, cells, dc + offset[0], dr + offset[1], clipMm);
      if (r > most) {
        most = r;
        best = { dc: dc + offset[0], dr: dr + offset[1], inside: Math.abs(dc) < reach && Math.abs(dr) < reach };
      }
    }
  return most > -1 ? best : null;
}

function plainCorrelation(
  a: HeightGrid,
  b: HeightGrid,
  cells: Int32Array,
  dc: number,
  dr: number,
  clipMm: readonly [number, number],
): number {
  const { width, height } = a;
  const step = dr * width + dc;
  const [mostA, mostB] = clipMm.map(Math.fround);
  let [n, sa, sb, saa, sab, sbb] = [0, 0, 0, 0, 0, 0];
  for (let k = 0; k < cells.length; k++) {
    const i = cells[k];
    const c = (i % width) + dc;
    const j = i + step;
    if (c < 0 || c >= width || j < 0 || j >= width * height || !b.mask[j]) continue;
    const p = clamp(a.z[i], mostA);
    const q = clamp(b.z[j], mostB);
    n++;
    sa += p;
    sb += q;
    saa += p * p;
    sab += p * q;
    sbb += q * q;
  }
  if (2 * n < cells.length || n < 20) return -1;
  return correlationOfSums(n, sa, sb, saa, sab, sbb) ?? -1;
}

const clamp = (v: number, most: number): number => Math.max(-most, Math.min(most, v));
