import {
  compose,
  invert,
  type Random,
  rotationAbout,
  type Similarity,
  turnOver,
} from '../../src/core/geometry/index.ts';
import type { Sense } from './types.ts';
import { noWarp, type Warp } from './warp.ts';

/**
 * Where the design lies in a scan's file, mm: design point p ↦ pose · face · size · (p + warp(p)). Design points are in
 * the impression's sense, z up; the face of a negative is the same surface turned over.
 */
export interface Placement {
  readonly sense: Sense;
  readonly size: number;
  readonly warp: Warp;
  /** Face frame → file, scale 1; a reflection for a mirrored file. */
  readonly scanFromFace: Similarity;
}

/** x ↦ −x: what a mirrored file did to its coordinates. */
export const mirror: Similarity = { scale: 1, rotation: [-1, 0, 0, 0, 1, 0, 0, 0, 1], translation: [0, 0, 0] };

/** Any turn in space (axis uniform on the sphere, angle uniform), any offset within ±offsetMm. */
export function randomPose(random: Random, offsetMm: number, mirrored: boolean): Similarity {
  const z = random.between(-1, 1);
  const t = random.between(0, 2 * Math.PI);
  const r = Math.sqrt(1 - z * z);
  const rotation = rotationAbout([r * Math.cos(t), r * Math.sin(t), z], random.between(0, 2 * Math.PI));
  const along = (): number => random.between(-offsetMm, offsetMm);
  const pose: Similarity = { scale: 1, rotation, translation: [along(), along(), along()] };
  return mirrored ? compose(mirror, pose) : pose;
}

/** Scan ← design, without the warp. */
export function scanFromDesign(placement: Placement): Similarity {
  const size: Similarity = { scale: placement.size, rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], translation: [0, 0, 0] };
  const face = placement.sense === 'intaglio' ? compose(turnOver, size) : size;
  return compose(placement.scanFromFace, face);
}

/** Places xyz triples of the design frame in the file, warp included. */
export function place(placement: Placement, design: Float64Array): Float64Array {
  const out = new Float64Array(design.length);
  const shift = new Float64Array(3);
  const { rotation: r, translation: t, scale } = scanFromDesign(placement);
  for (let i = 0; i < design.length; i += 3) {
    placement.warp.shift(design[i], design[i + 1], shift);
    const x = scale * (design[i] + shift[0]);
    const y = scale * (design[i + 1] + shift[1]);
    const z = scale * (design[i + 2] + shift[2]);
    out[i] = r[0] * x + r[1] * y + r[2] * z + t[0];
    out[i + 1] = r[3] * x + r[4] * y + r[5] * z + t[1];
    out[i + 2] = r[6] * x + r[7] * y + r[8] * z + t[2];
  }
  return out;
}

/**
 * Design point whose place in the file is `after` · (x, y, z): the warp is undone by fixed-point steps, which shrink
 * the error by the warp's slope (a few hundredths) each.
 */
export function designFromScan(
  placement: Placement,
  after: Similarity,
): (x: number, y: number, z: number, out: Float64Array) => void {
  const back = compose(invert(scanFromDesign(placement)), after);
  const m = back.rotation.map((value) => value * back.scale);
  const t = back.translation;
  const shift = new Float64Array(3);
  const steps = placement.warp === noWarp ? 0 : 3;
  return (x, y, z, out) => {
    const u = m[0] * x + m[1] * y + m[2] * z + t[0];
    const v = m[3] * x + m[4] * y + m[5] * z + t[1];
    const w = m[6] * x + m[7] * y + m[8] * z + t[2];
    out[0] = u;
    out[1] = v;
    out[2] = w;
    for (let step = 0; step < steps; step++) {
      placement.warp.shift(out[0], out[1], shift);
      out[0] = u - shift[0];
      out[1] = v - shift[1];
      out[2] = w - shift[2];
    }
  };
}
