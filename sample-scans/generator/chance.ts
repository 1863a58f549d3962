import { type Random, seededRandom } from '../../src/core/geometry/index.ts';

/** A sub-seed for one named use, so that adding a use elsewhere leaves this one as it was (FNV-1a over the label). */
export function subSeed(seed: number, label: string): number {
  let hash = (2_166_136_261 ^ seed) >>> 0;
  for (let i = 0; i < label.length; i++) hash = Math.imul(hash ^ label.charCodeAt(i), 16_777_619) >>> 0;
  hash = Math.imul(hash ^ (hash >>> 15), 0x2c1b3c6d) >>> 0;
  return (hash ^ (hash >>> 13)) >>> 0;
}

export const chanceFor = (seed: number, label: string): Random => seededRandom(subSeed(seed, label));

/** A scalar over the plane. */
export type PlaneFunction = (x: number, y: number) => number;

const latticeSize = 64;

/**
 * Smooth random field, about uniform in [−1, 1], with detail of the size `cellMm`: values on a square lattice (period
 * 64 cells), joined by the quintic 6t⁵ − 15t⁴ + 10t³, turned by a random angle so that the lattice does not line up
 * with the axes.
 */
export function smoothField(random: Random, cellMm: number): PlaneFunction {
  const lattice = new Float32Array(latticeSize * latticeSize);
  for (let i = 0; i < lattice.length; i++) lattice[i] = random.between(-1, 1);
  const angle = random.between(0, 2 * Math.PI);
  const c = Math.cos(angle) / cellMm;
  const s = Math.sin(angle) / cellMm;
  const u0 = random.between(0, latticeSize);
  const v0 = random.between(0, latticeSize);
  return (x, y) => {
    const u = c * x - s * y + u0;
    const v = s * x + c * y + v0;
    const iu = Math.floor(u);
    const iv = Math.floor(v);
    const a = fade(u - iu);
    const b = fade(v - iv);
    const left = iu & 63;
    const right = (iu + 1) & 63;
    const low = (iv & 63) << 6;
    const high = ((iv + 1) & 63) << 6;
    const below = lattice[low | left] + a * (lattice[low | right] - lattice[low | left]);
    const above = lattice[high | left] + a * (lattice[high | right] - lattice[high | left]);
    return below + b * (above - below);
  };
}

const fade = (t: number): number => t * t * t * (t * (6 * t - 15) + 10);

/** Several octaves of `smoothField`, each half as coarse and `gain` times as strong; scaled to about [−1, 1]. */
export function roughField(random: Random, cellMm: number, octaves: number, gain = 0.5): PlaneFunction {
  const layers: PlaneFunction[] = [];
  let total = 0;
  for (let k = 0; k < octaves; k++) {
    layers.push(smoothField(random, cellMm / 2 ** k));
    total += gain ** k;
  }
  return (x, y) => {
    let sum = 0;
    let weight = 1 / total;
    for (const layer of layers) {
      sum += weight * layer(x, y);
      weight *= gain;
    }
    return sum;
  };
}
