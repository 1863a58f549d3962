import { describe, expect, it } from 'vitest';
import { type HeightGrid, seededRandom } from '../../src/core/geometry/index.ts';
import { arealAgreement, weightedAgreement } from '../../src/core/judge/correlation.ts';
import { type PatchOptions, registerPatch } from '../../src/core/judge/patches.ts';

const size = 80;
const pitch = 0.1;
type At = (col: number, row: number) => number;

const gridOf = (height: At, has: (col: number, row: number) => boolean = () => true): HeightGrid => {
  const cells = Array.from({ length: size * size }, (_, i): [number, number] => [i % size, Math.floor(i / size)]);
  const mask = Uint8Array.from(cells, ([c, r]) => (has(c, r) ? 1 : 0));
  return {
    width: size,
    height: size,
    pitch,
    left: 0,
    top: 7.9,
    z: Float32Array.from(cells, ([c, r], i) => (mask[i] ? height(c, r) : 0)),
    mask,
  };
};

/** Waves of six to twenty cells in every direction, a hundredth of a millimetre each. */
function waves(seed: number, stretch: readonly [number, number] = [1, 1]): At {
  const random = seededRandom(seed);
  const list = Array.from({ length: 24 }, () => [
    random.between(-0.5, 0.5) * stretch[0],
    random.between(-0.5, 0.5) * stretch[1],
    random.between(0, 6.3),
  ]);
  return (c, r) => list.reduce((sum, [u, v, p]) => sum + 0.01 * Math.sin(u * c + v * r + p), 0);
}

const options: PatchOptions = { radius: 9, reach: 5, noiseCells: 1, clipMm: [9, 9] };
const form = waves(1);
/** The middle of the grid, cell (40, 39). */
const [x, y] = [4, 4];
const [mc, mr] = [40, 39];
const reference = gridOf(form);
const shifted = (dx: number, dy: number, turnDeg = 0, gain = 1, level = 0): At => {
  const [cos, sin] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
  // Rows run downward: a turn counter-clockwise as seen is one the other way in cells.
  return (c, r) => {
    const [u, v] = [c - mc - dx, r - mr - dy];
    return gain * form(mc + cos * u - sin * v, mr + sin * u + cos * v) + level;
  };
};
const place = (b: HeightGrid, more: Partial<PatchOptions> = {}, a = reference) =>
  registerPatch(a, b, x, y, { ...options, ...more });

describe('the place of a patch', () => {
  it('is its middle cell, and its turn is counter-clockwise', () => {
    for (const turn of [-5, -2, 0, 3, 6]) {
      const patch = place(gridOf(shifted(0.8, -1.3, turn)));
      expect(patch?.x).toBeCloseTo(4, 9);
      expect(patch?.y).toBeCloseTo(4, 9);
      expect(patch?.dx).toBeCloseTo(0.08, 2);
      expect(patch?.dy).toBeCloseTo(0.13, 2);
      expect(Math.abs((patch?.turnDeg ?? 99) - turn)).toBeLessThan(0.12);
    }
  });

  it('does not care for gain and level, and tells the relief of both', () => {
    const patch = place(gridOf(shifted(1, 2, 0, 0.4, 7)));
    expect(patch?.dx).toBeCloseTo(0.1, 3);
    expect(patch?.dy).toBeCloseTo(-0.2, 3);
    expect(patch?.correlation).toBeGreaterThan(0.999);
    expect(patch?.kept).toBeGreaterThan(0.9);
    expect((patch?.relief[1] ?? 0) / (patch?.relief[0] ?? 1)).toBeCloseTo(0.4, 3);
    let [n, sum, square] = [0, 0, 0];
    for (let r = -9; r <= 9; r++)
      for (let c = -9; c <= 9; c++)
        if (r * r + c * c <= 81) {
          n++;
          sum += form(mc + c, mr + r);
          square += form(mc + c, mr + r) ** 2;
        }
    expect(patch?.relief[0]).toBeCloseTo(Math.sqrt(square / n - (sum / n) ** 2), 6);
  });

  it('lies within the reach, or says that it does not', () => {
    expect(place(gridOf(shifted(4, -4)))?.inside).toBe(true);
    expect(place(gridOf(shifted(4.2, 0)))?.dx).toBeCloseTo(0.42, 2);
    for (const [dx, dy] of [
      [7, 0],
      [-7, 0],
      [0, 7],
      [0, -7],
    ])
      expect(place(gridOf(shifted(dx, dy)))?.inside ?? false).toBe(false);
    expect(place(gridOf(shifted(7, 0)), { reach: 9 })?.inside).toBe(true);
  });

  it('is looked for about an offset where one is given', () => {
    const far = gridOf(shifted(14, -11));
    expect(place(far, { offset: [14, -11] })?.dx).toBeCloseTo(1.4, 2);
    expect(place(far, { offset: [14, -11] })?.dy).toBeCloseTo(1.1, 2);
    expect(place(far, { offset: [14, -11] })?.inside).toBe(true);
    expect(place(far)?.correlation ?? 0).toBeLessThan(0.9);
  });

  it('needs twenty cells of the reference and half of them on the subject', () => {
    const few = (cells: number) =>
      place(
        reference,
        {},
        gridOf(
          form,
          (c, r) =>
            r === mr - 4 + Math.floor((c - mc + 4) / 99) && Math.abs(c - mc) < 99 && c - mc + 9 < cells && c >= mc - 9,
        ),
      );
    expect(few(12)).toBeNull();
    // Cells with col below the middle: half of the disc and a little more, or less.
    expect(place(gridOf(shifted(0, 0), (c) => c < mc + 3))).not.toBeNull();
    expect(place(gridOf(shifted(0, 0), (c) => c < mc - 6))).toBeNull();
    expect(place(gridOf(shifted(0, 0), (c) => c < mc + 3))?.kept ?? 1).toBeLessThan(0.75);
  });

  it('clips what is deeper than any stroke while it looks for its place', () => {
    const random = seededRandom(5);
    const pits = Array.from({ length: 9 }, () => [mc + random.between(-7, 7), mr + random.between(-7, 7)]);
    const pitted = gridOf(
      (c, r) => shifted(3, -2)(c, r) + (pits.some(([u, v]) => Math.hypot(c - u, r - v) < 1.6) ? -3 : 0),
    );
    expect(place(pitted, { clipMm: [0.1, 0.1] })?.dx).toBeCloseTo(0.3, 1);
    expect(place(pitted, { clipMm: [0.1, 0.1] })?.dy).toBeCloseTo(0.2, 1);
  });
});

describe('the covariance of a place', () => {
  /** Estimates under many noises against what is stated, on relief that lets one direction be told better. */
  function trial(of: At, noiseMm: number) {
    const own = gridOf(of);
    // Linear interpolation there takes seven tenths of the noise of single cells off what is left, and not off the place.
    const moved = gridOf((c, r) => of(c - 0.4, r - 0.3));
    let [xx, xy, yy, mx, my] = [0, 0, 0, 0, 0];
    const stated = [0, 0, 0];
    const n = 60;
    for (let seed = 1; seed <= n; seed++) {
      const random = seededRandom(seed);
      const b = { ...moved, z: moved.z.map((z) => z + noiseMm * random.normal()) };
      const patch = registerPatch(own, b, x, y, options);
      if (!patch) throw new Error('not placed');
      const [dx, dy] = [patch.dx - 0.04, patch.dy + 0.03];
      mx += dx / n;
      my += dy / n;
      xx += (dx * dx) / n;
      xy += (dx * dy) / n;
      yy += (dy * dy) / n;
      patch.covariance.forEach((value, k) => {
        stated[k] += value / n;
      });
    }
    return { seen: [xx - mx * mx, xy - mx * my, yy - my * my], stated };
  }

  it('is what the places scatter by, in both directions and together', () => {
    // Waves that run mostly along x, and mostly along one diagonal: x is told best, or x and y err together.
    const alongX = trial(waves(3, [1, 0.45]), 0.0006);
    const diagonal = trial((c, r) => waves(4, [1, 0.25])(c + r, r - c), 0.0006);
    for (const { seen, stated } of [alongX, diagonal])
      for (const k of [0, 2]) {
        expect(stated[k] / seen[k]).toBeGreaterThan(0.2);
        expect(stated[k] / seen[k]).toBeLessThan(0.9);
      }
    expect(alongX.stated[2] / alongX.stated[0]).toBeGreaterThan(1.5);
    expect(Math.abs(diagonal.stated[1])).toBeGreaterThan(0.3 * Math.sqrt(diagonal.stated[0] * diagonal.stated[2]));
    expect(Math.sign(diagonal.stated[1])).toBe(Math.sign(diagonal.seen[1]));
    expect(diagonal.stated[1] / diagonal.seen[1]).toBeGreaterThan(0.15);
    expect(diagonal.stated[1] / diagonal.seen[1]).toBeLessThan(0.8);
  });

  it('grows with the noise’s square, with the cells that it hangs together over, and with the cell', () => {
    const noisy = (mm: number): HeightGrid => {
      const random = seededRandom(2);
      return gridOf((c, r) => form(c, r) + mm * random.normal());
    };
    const at = (mm: number, more: Partial<PatchOptions> = {}) => place(noisy(mm), more)?.covariance[0] ?? 0;
    expect(at(0.0008) / at(0.0004)).toBeGreaterThan(3);
    expect(at(0.0008) / at(0.0004)).toBeLessThan(5);
    expect(at(0.0008, { noiseCells: 3 }) / at(0.0008)).toBeCloseTo(3, 6);
    const b = noisy(0.0008);
    const large = registerPatch(
      { ...reference, pitch: 0.2, top: 15.8 },
      { ...b, pitch: 0.2, top: 15.8 },
      8,
      8,
      options,
    );
    expect((large?.covariance[0] ?? 0) / at(0.0008)).toBeCloseTo(4, 6);
    expect(large?.dx).toBeCloseTo(2 * (place(b)?.dx ?? 0), 9);
  });
});

describe('agreement of two reliefs', () => {
  const random = seededRandom(4);
  const va = Float64Array.from({ length: 300 }, (_, k) => (k % 17 === 0 ? Number.NaN : random.normal()));
  const vb = va.map((value) => 0.7 * value + 0.5 * random.normal() + 3);
  const weight = Float64Array.from(va, () => (random.next() < 0.2 ? 0 : random.next()));

  it('is Pearson’s correlation with weights, the share that kept weight, and plain spreads', () => {
    const use = [...va.keys()].filter((k) => !Number.isNaN(va[k]));
    const total = use.reduce((sum, k) => sum + weight[k], 0);
    const mean = (v: Float64Array): number => use.reduce((sum, k) => sum + weight[k] * v[k], 0) / total;
    const [ma, mb] = [mean(va), mean(vb)];
    const product = (p: Float64Array, mp: number, q: Float64Array, mq: number): number =>
      use.reduce((sum, k) => sum + weight[k] * (p[k] - mp) * (q[k] - mq), 0);
    const plain = (v: Float64Array): number => {
      const m = use.reduce((sum, k) => sum + v[k], 0) / use.length;
      return Math.sqrt(use.reduce((sum, k) => sum + (v[k] - m) ** 2, 0) / use.length);
    };
    const [r, kept, ra, rb] = weightedAgreement(va, vb, weight);
    expect(r).toBeCloseTo(product(va, ma, vb, mb) / Math.sqrt(product(va, ma, va, ma) * product(vb, mb, vb, mb)), 9);
    expect(kept).toBeCloseTo(total / use.length, 12);
    expect(ra).toBeCloseTo(plain(va), 9);
    expect(rb).toBeCloseTo(plain(vb), 9);
  });

  it('over areas counts the cells that both have and that are asked for', () => {
    const a = gridOf(waves(7), (c) => c > 4);
    const b = gridOf(
      (c, r) => 0.8 * waves(7)(c, r) + 0.3 * waves(8)(c, r) + 2,
      (_, r) => r > 9,
    );
    const use = Uint8Array.from(a.z, (_, i) => (i % 3 ? 1 : 0));
    const cells = [...a.z.keys()].filter((i) => a.mask[i] && b.mask[i] && use[i]);
    const mean = (z: Float32Array): number => cells.reduce((sum, i) => sum + z[i], 0) / cells.length;
    const [ma, mb] = [mean(a.z), mean(b.z)];
    const sum = (of: (p: number, q: number) => number): number =>
      cells.reduce((total, i) => total + of(a.z[i] - ma, b.z[i] - mb), 0);
    const got = arealAgreement(a, b, use);
    expect(got.cells).toBe(cells.length);
    expect(got.correlation).toBeCloseTo(sum((p, q) => p * q) / Math.sqrt(sum((p) => p * p) * sum((_, q) => q * q)), 5);
    expect(got.topographyDifference).toBeCloseTo(sum((p, q) => (q - p) ** 2) / sum((p) => p * p), 3);
    expect(arealAgreement(a, { ...a, z: a.z.map((z) => -z) }).topographyDifference).toBeCloseTo(4, 6);
    expect(arealAgreement(a, { ...b, mask: b.mask.map(() => 0) })).toMatchObject({ correlation: 0, cells: 0 });
  });
});
