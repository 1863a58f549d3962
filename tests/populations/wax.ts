import type { Chance } from './chance.ts';
import { type Lattice, ramp, randomSurface, smooth, spread } from './lattice.ts';
import type { Bend, Made } from './made.ts';
import { type Amount, conditionCode } from './types.ts';

/** How soft material takes a face. */
export interface Pressing {
  readonly lip: Amount;
  /** Share of the image that wax fails to fill, about. */
  readonly unfilled: number;
  readonly shrink: number;
  readonly smoothMm: number;
  readonly bendMm: number;
  readonly flowMm: number;
  /** Radius of curvature at the tips of the tongues of wax, mm: it does not enter narrower grooves. */
  readonly tipMm: number;
}

export function pressing(chance: Chance, lip: Amount, many: boolean): Pressing {
  return {
    lip,
    unfilled: many || chance.yes(0.3) ? chance.range(0.02, 0.12) : 0,
    shrink: chance.logRange(0.002, 0.03),
    smoothMm: chance.range(0.02, 0.07),
    bendMm: chance.logRange(0.01, 0.2),
    flowMm: chance.range(0, 0.025),
    tipMm: chance.range(0.02, 0.12),
  };
}

/** An impression of a negative: its face entered, smoothed by the wax's own stiffness, in a cake with lip and rim. */
export function press(matrix: Made, how: Pressing, chance: Chance): Made {
  const { lattice, outside, outline } = matrix;
  const die = matrix.z.slice();
  for (let i = 0; i < die.length; i++) if (outside[i] > 0) die[i] = 0;
  const condition = matrix.condition.slice();
  let z = enter(lattice, die, how.tipMm);
  if (how.unfilled > 0) underfill(matrix, z, how.unfilled, chance.branch('unfilled'));
  z = smooth(lattice, z, how.smoothMm);
  const thicknessMm = chance.range(2.5, 6);
  for (let i = 0; i < z.length; i++)
    if (outside[i] <= 0 && die[i] - z[i] > Math.max(0.08, 0.2 * die[i])) condition[i] = conditionCode.unfilled;
  const piece = layCake(matrix, z, condition, how.lip, thicknessMm, chance.branch('cake'));
  const aside = 1 + 0.15 * how.shrink * chance.gauss();
  return {
    ...matrix,
    z,
    condition,
    piece,
    negative: false,
    edgeMm: 0,
    thicknessMm,
    scale: shrunk(matrix.scale, how.shrink, aside),
    bends: [...matrix.bends, ...bending(outline.halfHeight, how, chance.branch('bending'))],
  };
}

/** A faithful copy of the surface in another material, negative of a positive or the other way. */
export function mould(object: Made, change: number, chance: Chance): Made {
  const { outline, lattice } = object;
  const gentle = { bendMm: chance.range(0.002, 0.02), flowMm: chance.range(0, 0.006) };
  return {
    ...object,
    z: smooth(lattice, object.z, chance.range(0.01, 0.04)),
    condition: object.condition.slice(),
    negative: !object.negative,
    scale: shrunk(object.scale, change, 1 + 0.05 * change * chance.gauss()),
    bends: [...object.bends, ...bending(outline.halfHeight, gentle, chance.branch('bending'))],
  };
}

/** A bevel that is filed begins so far beyond the outline, mm. */
const trimmedMm = 0.25;

/** A moulded matrix: the flange of wax filed off, a bevel in its place. */
export function trimToMatrix(object: Made, chance: Chance): Made {
  const z = object.z.slice();
  const condition = object.condition.slice();
  const piece = new Uint8Array(z.length);
  const slope = chance.range(0.8, 2.2);
  for (let i = 0; i < z.length; i++) {
    const e = object.outside[i];
    if (e < 1.5) piece[i] = 1;
    if (e <= 0) continue;
    z[i] = slope * Math.max(0, e - trimmedMm);
    condition[i] = conditionCode.body;
  }
  return { ...object, z, condition, piece, edgeMm: trimmedMm, thicknessMm: chance.range(3, 6) };
}

const shrunk = ([x, y, z]: Made['scale'], by: number, aside: number): Made['scale'] => [
  x * (1 - by) * aside,
  (y * (1 - by)) / aside,
  z * (1 - by),
];

/**
 * Grey-scale opening by a paraboloid of tip radius R: erosion min (z(p + d) + d²/2R), then dilation max (· − d²/2R),
 * each separable. What remains is every place that a tip of radius R can reach from below.
 */
function enter(lattice: Lattice, z: Float32Array, tipMm: number): Float32Array {
  const reach = Math.min(6, Math.max(1, Math.ceil(Math.sqrt(2 * tipMm * 0.25) / lattice.pitch)));
  const rise = Float32Array.from({ length: reach + 1 }, (_, k) => (k * lattice.pitch) ** 2 / (2 * tipMm));
  const { width, height } = lattice;
  let out = z;
  for (const sign of [1, -1]) {
    out = extreme(out, 1, width, height, rise, sign);
    out = extreme(out, width, width, height, rise, sign);
  }
  return out;
}

/** sign 1: the least of z + rise among neighbours along one direction (`step` cells apart); −1: the greatest of z − rise. */
function extreme(z: Float32Array, step: number, width: number, height: number, rise: Float32Array, sign: number) {
  const out = z.slice();
  for (let k = 1; k < rise.length; k++) {
    const away = k * step;
    const lift = sign * rise[k];
    for (let row = 0; row < height; row++) {
      const from = row * width;
      const to = step === 1 ? from + width - k : Math.min(from + width, z.length - away);
      for (let i = from; i < to; i++) {
        const near = z[i] + lift;
        const far = z[i + away] + lift;
        if (sign * far < sign * out[i]) out[i] = far;
        if (sign * near < sign * out[i + away]) out[i + away] = near;
      }
    }
  }
  return out;
}

/** Lowers the tops over the regions where the pressure was least, until they are about the wanted share of the image. */
function underfill({ lattice, outside, outline }: Made, z: Float32Array, share: number, chance: Chance): void {
  const extent = outline.halfHeight * 1.6 + 8;
  const pressure = randomSurface(chance, outline.halfWidth * 0.5, extent);
  const raised: number[] = [];
  for (let i = 0; i < z.length; i += 61) if (outside[i] < 0 && z[i] > 0.1) raised.push(z[i]);
  raised.sort((a, b) => a - b);
  const cap = (raised[Math.floor(raised.length * 0.35)] ?? 0.2) * chance.range(0.7, 1.1);
  // About 40 % of a face is raised above the cap there.
  const limit = quantileOfNormal(Math.max(0.02, 1 - share / 0.4));
  const push = spread(lattice, 0.5, pressure);
  for (let i = 0; i < z.length; i++)
    if (z[i] > cap && outside[i] <= 0) z[i] -= ramp(push[i], limit - 0.1, limit + 0.25) * 0.85 * (z[i] - cap);
}

/** Rough inverse of the normal distribution, good to 0.01 (logistic form). */
const quantileOfNormal = (p: number): number => Math.log(p / (1 - p)) / 1.702;

/** What wax does beyond the outline: lip, rim and fall to the table. Returns where the cake is. */
function layCake(
  m: Made,
  z: Float32Array,
  condition: Uint8Array,
  lip: Amount,
  thick: number,
  chance: Chance,
): Uint8Array {
  const { lattice, outside, outline } = m;
  const size = 2 * outline.halfWidth;
  const highest = lip === 'none' ? 0 : lip === 'some' ? chance.range(0.2, 0.7) : chance.range(0.8, 2);
  const lipWidth = Math.min(0.09 * size, chance.range(0.9, 2.4));
  const uneven = randomSurface(chance, outline.halfWidth * 0.7, outline.halfHeight * 1.6 + 8);
  const rough = randomSurface(chance, 0.8, outline.halfHeight * 1.6 + 8);
  const margin = Math.min(5, 0.07 * size + chance.range(0.5, 1.5));
  const piece = new Uint8Array(z.length);
  const swells = spread(lattice, 0.5, uneven);
  const { width, height, pitch, left, bottom } = lattice;
  for (let row = 0, i = 0; row < height; row++)
    for (let column = 0; column < width; column++, i++) {
      const e = outside[i];
      if (e <= 0) {
        piece[i] = 1;
        continue;
      }
      const x = left + column * pitch;
      const y = bottom + row * pitch;
      const swell = swells[i];
      const edge = margin * (1 + 0.25 * swell);
      const s = e / (lipWidth * (1 + 0.2 * swell));
      const up = highest * Math.max(0, 1 + 0.6 * swell) * ramp(s, 0, 1) * (1 - 0.7 * ramp(s, 1, 2.4));
      const q = (e - (edge - 0.6 * thick)) / (0.6 * thick);
      const fall = q <= 0 ? 0 : q >= 1 ? 1 : 1 - Math.sqrt(1 - q * q);
      const onCake = e < edge - 0.03;
      piece[i] = onCake ? 1 : 0;
      z[i] = onCake ? up + 0.02 * rough(x, y) * ramp(e, 0, 0.6) - thick * fall : -thick + 0.015 * swell;
      condition[i] = onCake && highest > 0 && s < 2 && up > 0.04 ? conditionCode.lip : conditionCode.body;
    }
  return piece;
}

/** Six long waves in each direction, a fifth as much in the plane as across it, and local flow over 1.5 to 4 mm. */
function bending(halfHeight: number, how: Pick<Pressing, 'bendMm' | 'flowMm'>, chance: Chance): Bend[] {
  const waves = Array.from({ length: 6 }, () => {
    const k = (Math.PI / halfHeight) * chance.range(0.25, 1.1);
    const angle = chance.range(0, 2 * Math.PI);
    const size = how.bendMm * Math.sqrt(2 / 6);
    const amplitude = [0.2 * size * chance.gauss(), 0.2 * size * chance.gauss(), size * chance.gauss()];
    return { kx: k * Math.cos(angle), ky: k * Math.sin(angle), phase: chance.range(0, 2 * Math.PI), amplitude };
  });
  const bends: Bend[] = [
    (x, y, out) => {
      for (const { kx, ky, phase, amplitude } of waves) {
        const value = Math.sin(kx * x + ky * y + phase);
        out[0] += amplitude[0] * value;
        out[1] += amplitude[1] * value;
        out[2] += amplitude[2] * value;
      }
    },
  ];
  if (how.flowMm < 1e-4) return bends;
  const extent = halfHeight * 1.6 + 8;
  const flow = [0, 1, 2].map(() => randomSurface(chance, chance.range(1.5, 4), extent));
  bends.push((x, y, out) => {
    for (let axis = 0; axis < 3; axis++) out[axis] += (how.flowMm / Math.sqrt(3)) * flow[axis](x, y);
  });
  return bends;
}
