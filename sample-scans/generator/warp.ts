import type { Random } from '../../src/core/geometry/index.ts';

/** Displacement of the design point (x, y), mm. */
export interface Warp {
  shift(x: number, y: number, out: Float64Array): void;
}

export const noWarp: Warp = { shift: (_x, _y, out) => out.fill(0) };

/**
 * Bending and flow of a soft body: quadratic and weak cubic terms in z (the stronger) and in the plane, and a few
 * local swellings of 3 to 8 mm. Scaled so that the largest displacement from the mean is `peakMm` over the face.
 */
export function randomWarp(radiusMm: number, peakMm: number, random: Random): Warp {
  if (peakMm <= 0) return noWarp;
  const c = Array.from({ length: 21 }, (_, i) => random.normal() * termSize(i));
  const bumps = Array.from({ length: 3 }, () => {
    const sigma = random.between(0.12, 0.35) * radiusMm;
    return {
      x: random.between(-0.8, 0.8) * radiusMm,
      y: random.between(-0.8, 0.8) * radiusMm,
      inverse: 1 / (2 * sigma * sigma),
      size: [0.15 * random.normal(), 0.15 * random.normal(), 0.3 * random.normal()],
    };
  });
  const raw = (x: number, y: number, out: Float64Array): void => {
    const u = Math.max(-1.3, Math.min(1.3, x / radiusMm));
    const v = Math.max(-1.3, Math.min(1.3, y / radiusMm));
    const basis = [u * u, u * v, v * v, u * u * u, u * u * v, u * v * v, v * v * v];
    for (let axis = 0; axis < 3; axis++) {
      let sum = 0;
      for (let k = 0; k < 7; k++) sum += c[7 * axis + k] * basis[k];
      out[axis] = sum;
    }
    for (const b of bumps) {
      const weight = Math.exp(-((x - b.x) ** 2 + (y - b.y) ** 2) * b.inverse);
      for (let axis = 0; axis < 3; axis++) out[axis] += weight * b.size[axis];
    }
  };
  const { mean, peak } = extremes(raw, radiusMm);
  const scale = peakMm / peak;
  return {
    shift(x, y, out) {
      raw(x, y, out);
      for (let axis = 0; axis < 3; axis++) out[axis] = (out[axis] - mean[axis]) * scale;
    },
  };
}

/** z bends most; cubic terms are weaker than quadratic ones. */
const termSize = (i: number): number => (i >= 14 ? 1 : 0.45) * (i % 7 < 3 ? 1 : 0.35);

function extremes(raw: Warp['shift'], radiusMm: number): { mean: Float64Array; peak: number } {
  const out = new Float64Array(3);
  const mean = new Float64Array(3);
  const samples: Float64Array[] = [];
  for (let i = 0; i < 200; i++) {
    // Sunflower points over the disc.
    const r = radiusMm * Math.sqrt((i + 0.5) / 200);
    raw(r * Math.cos(2.399963 * i), r * Math.sin(2.399963 * i), out);
    samples.push(out.slice());
    for (let axis = 0; axis < 3; axis++) mean[axis] += out[axis] / 200;
  }
  const peak = Math.max(...samples.map((s) => Math.hypot(s[0] - mean[0], s[1] - mean[1], s[2] - mean[2])));
  return { mean, peak: peak || 1 };
}
