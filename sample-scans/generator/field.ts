/**
 * Heights over the design plane, mm. Cell (i, j) stands at x = left + i · pitch, y = bottom + j · pitch (y upward);
 * `z` is row-major, `width · height` long. The design plane is always in the impression's sense.
 */
export interface Field {
  readonly width: number;
  readonly height: number;
  readonly pitch: number;
  readonly left: number;
  readonly bottom: number;
  readonly z: Float32Array;
}

/** A field of zeros over ±halfWidth × ±halfHeight, mm. */
export function emptyField(halfWidth: number, halfHeight: number, pitch: number): Field {
  const width = 2 * Math.ceil(halfWidth / pitch) + 1;
  const height = 2 * Math.ceil(halfHeight / pitch) + 1;
  return {
    width,
    height,
    pitch,
    left: (-(width - 1) / 2) * pitch,
    bottom: (-(height - 1) / 2) * pitch,
    z: new Float32Array(width * height),
  };
}

export const copyField = (field: Field, z: Float32Array = field.z.slice()): Field => ({ ...field, z });

/** Calls `visit(index, x, y)` for every cell. */
export function eachCell(field: Field, visit: (index: number, x: number, y: number) => void): void {
  const { width, height, pitch, left, bottom } = field;
  for (let j = 0, index = 0; j < height; j++)
    for (let i = 0; i < width; i++, index++) visit(index, left + i * pitch, bottom + j * pitch);
}

/** Calls `visit` for the cells within the rectangle only. */
export function eachCellIn(
  field: Field,
  xMin: number,
  xMax: number,
  yMin: number,
  yMax: number,
  visit: (index: number, x: number, y: number) => void,
): void {
  const { width, height, pitch, left, bottom } = field;
  const i0 = Math.max(0, Math.ceil((xMin - left) / pitch));
  const i1 = Math.min(width - 1, Math.floor((xMax - left) / pitch));
  const j0 = Math.max(0, Math.ceil((yMin - bottom) / pitch));
  const j1 = Math.min(height - 1, Math.floor((yMax - bottom) / pitch));
  for (let j = j0; j <= j1; j++)
    for (let i = i0; i <= i1; i++) visit(j * width + i, left + i * pitch, bottom + j * pitch);
}

/** Index of the nearest cell, clamped to the field. */
export function nearestCell(field: Field, x: number, y: number): number {
  const i = Math.round((x - field.left) / field.pitch);
  const j = Math.round((y - field.bottom) / field.pitch);
  return clamp(j, field.height - 1) * field.width + clamp(i, field.width - 1);
}

const clamp = (i: number, high: number): number => (i < 0 ? 0 : i > high ? high : i);

/** Bicubic (Catmull–Rom) height at (x, y); beyond the field the edge goes on. Continuous with its first derivative. */
export function heightAt(field: Field, x: number, y: number): number {
  const { width, height, z } = field;
  const u = (x - field.left) / field.pitch;
  const v = (y - field.bottom) / field.pitch;
  const iu = Math.floor(u);
  const iv = Math.floor(v);
  const a = u - iu;
  const c0 = clamp(iu - 1, width - 1);
  const c1 = clamp(iu, width - 1);
  const c2 = clamp(iu + 1, width - 1);
  const c3 = clamp(iu + 2, width - 1);
  const row = (j: number): number => {
    const r = clamp(j, height - 1) * width;
    return cubic(z[r + c0], z[r + c1], z[r + c2], z[r + c3], a);
  };
  return cubic(row(iv - 1), row(iv), row(iv + 1), row(iv + 2), v - iv);
}

const cubic = (p0: number, p1: number, p2: number, p3: number, t: number): number =>
  p1 + 0.5 * t * (p2 - p0 + t * (2 * p0 - 5 * p1 + 4 * p2 - p3 + t * (3 * (p1 - p2) + p3 - p0)));

/**
 * Gaussian blur of standard deviation `sigmaMm` by three running means along rows and columns; edges repeat. Good to
 * about 3 % of the kernel's height, which is finer than any effect here is known. Below half a cell: a copy.
 */
export function blurred(field: Field, sigmaMm: number): Float32Array {
  const sigma = sigmaMm / field.pitch;
  const source = field.z.slice();
  if (sigma < 0.5) return source;
  const target = new Float32Array(source.length);
  // Three boxes of half-width h have the variance 3 · ((2h + 1)² − 1) / 12.
  const half = Math.max(1, Math.round((Math.sqrt(4 * sigma * sigma + 1) - 1) / 2));
  for (let pass = 0; pass < 3; pass++) {
    boxRows(source, target, field.width, field.height, half);
    boxColumns(target, source, field.width, field.height, half);
  }
  return source;
}

function boxRows(from: Float32Array, to: Float32Array, width: number, height: number, half: number): void {
  const scale = 1 / (2 * half + 1);
  for (let j = 0; j < height; j++) {
    const r = j * width;
    let sum = 0;
    for (let k = -half; k <= half; k++) sum += from[r + clamp(k, width - 1)];
    for (let i = 0; i < width; i++) {
      to[r + i] = sum * scale;
      sum += from[r + clamp(i + half + 1, width - 1)] - from[r + clamp(i - half, width - 1)];
    }
  }
}

function boxColumns(from: Float32Array, to: Float32Array, width: number, height: number, half: number): void {
  const scale = 1 / (2 * half + 1);
  const sums = new Float64Array(width);
  for (let k = -half; k <= half; k++) {
    const r = clamp(k, height - 1) * width;
    for (let i = 0; i < width; i++) sums[i] += from[r + i];
  }
  for (let j = 0; j < height; j++) {
    const r = j * width;
    const enter = clamp(j + half + 1, height - 1) * width;
    const leave = clamp(j - half, height - 1) * width;
    for (let i = 0; i < width; i++) {
      to[r + i] = sums[i] * scale;
      sums[i] += from[enter + i] - from[leave + i];
    }
  }
}
