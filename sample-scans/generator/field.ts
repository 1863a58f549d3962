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

const clamp = (i: number, high: number): number => Math.max(0, Math.min(high, i));

/** Bicubic (Catmull–Rom) height at (x, y); beyond the field the edge goes on. Continuous with its first derivative. */
export function heightAt(field: Field, x: number, y: number): number {
  return heightAndSlope(field, x, y, scratch);
}

const scratch = new Float64Array(3);

/** Height, ∂z/∂x and ∂z/∂y of the bicubic surface, written to `out`; returns the height. */
export function heightAndSlope(field: Field, x: number, y: number, out: Float64Array): number {
  const { width, height, z, pitch } = field;
  const u = (x - field.left) / pitch;
  const v = (y - field.bottom) / pitch;
  const iu = Math.floor(u);
  const iv = Math.floor(v);
  const t = u - iu;
  const c0 = clamp(iu - 1, width - 1);
  const c1 = clamp(iu, width - 1);
  const c2 = clamp(iu + 1, width - 1);
  const c3 = clamp(iu + 2, width - 1);
  // Catmull–Rom weights of the four columns, and their derivatives by u.
  const w0 = 0.5 * t * (-1 + t * (2 - t));
  const w1 = 1 + 0.5 * t * t * (3 * t - 5);
  const w2 = 0.5 * t * (1 + t * (4 - 3 * t));
  const w3 = 0.5 * t * t * (t - 1);
  const d0 = -0.5 + t * (2 - 1.5 * t);
  const d1 = t * (4.5 * t - 5);
  const d2 = 0.5 + t * (4 - 4.5 * t);
  const d3 = t * (1.5 * t - 1);
  const s = v - iv;
  const r0 = clamp(iv - 1, height - 1) * width;
  const r1 = clamp(iv, height - 1) * width;
  const r2 = clamp(iv + 1, height - 1) * width;
  const r3 = clamp(iv + 2, height - 1) * width;
  const h0 = w0 * z[r0 + c0] + w1 * z[r0 + c1] + w2 * z[r0 + c2] + w3 * z[r0 + c3];
  const h1 = w0 * z[r1 + c0] + w1 * z[r1 + c1] + w2 * z[r1 + c2] + w3 * z[r1 + c3];
  const h2 = w0 * z[r2 + c0] + w1 * z[r2 + c1] + w2 * z[r2 + c2] + w3 * z[r2 + c3];
  const h3 = w0 * z[r3 + c0] + w1 * z[r3 + c1] + w2 * z[r3 + c2] + w3 * z[r3 + c3];
  const v0 = 0.5 * s * (-1 + s * (2 - s));
  const v1 = 1 + 0.5 * s * s * (3 * s - 5);
  const v2 = 0.5 * s * (1 + s * (4 - 3 * s));
  const v3 = 0.5 * s * s * (s - 1);
  const x0 = d0 * z[r0 + c0] + d1 * z[r0 + c1] + d2 * z[r0 + c2] + d3 * z[r0 + c3];
  const x1 = d0 * z[r1 + c0] + d1 * z[r1 + c1] + d2 * z[r1 + c2] + d3 * z[r1 + c3];
  const x2 = d0 * z[r2 + c0] + d1 * z[r2 + c1] + d2 * z[r2 + c2] + d3 * z[r2 + c3];
  const x3 = d0 * z[r3 + c0] + d1 * z[r3 + c1] + d2 * z[r3 + c2] + d3 * z[r3 + c3];
  out[0] = v0 * h0 + v1 * h1 + v2 * h2 + v3 * h3;
  out[1] = (v0 * x0 + v1 * x1 + v2 * x2 + v3 * x3) / pitch;
  out[2] =
    (h0 * (-0.5 + s * (2 - 1.5 * s)) +
      h1 * s * (4.5 * s - 5) +
      h2 * (0.5 + s * (4 - 4.5 * s)) +
      h3 * s * (1.5 * s - 1)) /
    pitch;
  return out[0];
}

/**
 * Gaussian blur of standard deviation `sigmaMm` by three running means along rows and columns; edges repeat. The boxes
 * are of two odd widths, so that the variance is right to a few per cent; the peak is 6 % low along each axis. Below
 * half a cell: a copy.
 */
export function blurred(field: Field, sigmaMm: number): Float32Array {
  const sigma = sigmaMm / field.pitch;
  const source = field.z.slice();
  if (sigma < 0.5) return source;
  const target = new Float32Array(source.length);
  for (const half of boxHalves(sigma)) {
    boxRows(source, target, field.width, field.height, half);
    boxColumns(target, source, field.width, field.height, half);
  }
  return source;
}

/** Half-widths of three boxes whose variances, ((2h + 1)² − 1) / 12 each, come nearest to σ² in sum. */
function boxHalves(sigma: number): number[] {
  const low = Math.floor((Math.sqrt(4 * sigma * sigma + 1) - 1) / 2);
  const variance = (half: number): number => ((2 * half + 1) ** 2 - 1) / 12;
  const wider = Math.round((sigma * sigma - 3 * variance(low)) / (variance(low + 1) - variance(low)));
  return [0, 1, 2].map((k) => (k < wider ? low + 1 : low));
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
