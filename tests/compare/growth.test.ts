import { describe, expect, it } from 'vitest';
import { residualGrowth } from '../../src/core/compare/growth.ts';
import type { SubjectMotion } from '../../src/core/compare/motion.ts';
import {
  addPoint,
  noSums,
  plainSlope,
  robustLine,
  robustSigma,
  tukeyWeight,
} from '../../src/core/compare/robustLine.ts';
import {
  blockOf,
  invert,
  jackknife,
  normalise,
  rotate,
  rotationAbout,
  seededRandom,
  type Vec3,
} from '../../src/core/geometry/index.ts';

const radiusMm = 10;

/** The subject's scan lies turned; the motion takes it to the reference's face frame. */
const turn = rotationAbout(normalise([0.2, 0.9, -0.4]), 0.8);
const back = invert({ scale: 1, rotation: turn, translation: [1, 2, 3] });
const motion: SubjectMotion = {
  faceFromSubject: Float64Array.of(...turn.slice(0, 3), 1, ...turn.slice(3, 6), 2, ...turn.slice(6), 3),
  turn: Float64Array.from(turn),
};

/** Places on a face with normals every way upward, and the differences that a small motion and growth leave there. */
function surface(d: (p: Vec3, n: Vec3) => number, count = 4000, seed = 4) {
  const random = seededRandom(seed);
  const positions = new Float32Array(3 * count);
  const normals = new Float32Array(3 * count);
  const perVertexMm = new Float32Array(count);
  for (let i = 0; i < count; i++) {
    const p: Vec3 = [random.between(-9, 9), random.between(-9, 9), random.between(-0.6, 0.6)];
    const n = normalise([random.normal(), random.normal(), 1.2]);
    const lies = rotate(back.rotation, p).map((v, k) => v + back.translation[k]);
    positions.set(lies, 3 * i);
    normals.set(rotate(back.rotation, n), 3 * i);
    perVertexMm[i] = d(p, n);
  }
  return { positions, normals, perVertexMm };
}

const growthOf = ({ positions, normals, perVertexMm }: ReturnType<typeof surface>) =>
  residualGrowth(positions, normals, motion, perVertexMm, { middle: [0, 0], side: 2 * radiusMm });

/** What a turn ω, a shift t and growth ε leave: d = −n · (ω × p + t + (εx x, εy y, εz m)), m the height midway between p and p − d n. */
const left =
  (w: Vec3, t: Vec3, e: Vec3) =>
  ([x, y, z]: Vec3, [a, b, c]: Vec3): number => {
    const midway = e[2] / (1 + e[2] / 2);
    return (
      -(
        a * (w[1] * z - w[2] * y + t[0] + e[0] * x) +
        b * (w[2] * x - w[0] * z + t[1] + e[1] * y) +
        c * (w[0] * y - w[1] * x + t[2] + midway * z)
      ) /
      (1 - (c * c * midway) / 2)
    );
  };

describe('growth that residuals still ask for', () => {
  const moved = left([0.002, -0.003, 0.001], [0.02, -0.01, 0.03], [0.004, -0.006, 0.02]);

  it('is found along each axis beside a turn and a shift, exactly where nothing else is', () => {
    const found = growthOf(surface(moved));
    expect(found.x).toBeCloseTo(0.004, 6);
    expect(found.y).toBeCloseTo(-0.006, 6);
    expect(found.z).toBeCloseTo(0.02, 6);
    for (const sd of [found.sdX, found.sdY, found.sdZ]) expect(sd).toBeLessThan(1e-6);
  });

  it('does not mind that a fifth of the places are rubbed off, nor places without a difference', () => {
    const random = seededRandom(8);
    const one = surface((p, n) => moved(p, n) + (random.between(0, 1) < 0.2 ? -0.4 : 0.002 * random.normal()));
    for (let i = 0; i < 500; i++) one.perVertexMm[7 * i] = Number.NaN;
    const found = growthOf(one);
    expect(Math.abs(found.x - 0.004)).toBeLessThan(4 * found.sdX);
    expect(Math.abs(found.y + 0.006)).toBeLessThan(4 * found.sdY);
    expect(Math.abs(found.z - 0.02)).toBeLessThan(4 * found.sdZ);
    expect(found.sdX).toBeLessThan(1e-4);
    expect(found.sdZ).toBeLessThan(1e-3);
  });

  it('has standard errors that are the scatter of repeats', () => {
    const repeats = Array.from({ length: 60 }, (_, seed) => {
      const random = seededRandom(900 + seed);
      return growthOf(surface((p, n) => moved(p, n) + 0.02 * random.normal(), 1500, seed));
    });
    for (const [key, sd, truth] of [
      ['x', 'sdX', 0.004],
      ['y', 'sdY', -0.006],
      ['z', 'sdZ', 0.02],
    ] as const) {
      const squares = repeats.reduce((sum, one) => sum + ((one[key] - truth) / one[sd]) ** 2, 0) / repeats.length;
      // χ² of 60: within 0.6 to 1.6 but once in a thousand.
      expect(squares).toBeGreaterThan(0.6);
      expect(squares).toBeLessThan(1.6);
    }
  });

  it('does not take for depth what each surface has of its own, and is undone when the two are exchanged', () => {
    const random = seededRandom(12);
    const upright: Vec3 = [0, 0, 1];
    const [one, other] = [surface(() => 0), surface(() => 0)];
    for (let i = 0; i < 4000; i++) {
      const p: Vec3 = [random.between(-9, 9), random.between(-9, 9), 0];
      const height = 0.3 * random.normal();
      const [own, others] = [0.1 * random.normal(), 0.1 * random.normal()];
      // The first is nine tenths as deep as the second; both carry a third of it as noise.
      const [z, w] = [0.9 * height + own, height + others];
      for (const [scan, h, d] of [
        [one, z, z - w],
        [other, w, w - z],
      ] as const) {
        scan.positions.set(
          rotate(back.rotation, [p[0], p[1], h]).map((v, k) => v + back.translation[k]),
          3 * i,
        );
        scan.normals.set(rotate(back.rotation, upright), 3 * i);
        scan.perVertexMm[i] = d;
      }
    }
    // Slopes tell x and y; here there are some, on places that agree.
    for (const scan of [one, other])
      for (let i = 0; i < 400; i++) {
        const n = normalise([random.normal(), random.normal(), 1]);
        scan.normals.set(rotate(back.rotation, n), 30 * i);
        scan.perVertexMm[10 * i] = 0;
      }
    const [there, again] = [growthOf(one), growthOf(other)];
    expect(Math.abs(1 + there.z - 1 / 0.9)).toBeLessThan(0.03);
    expect(Math.abs((1 + there.z) * (1 + again.z) - 1)).toBeLessThan(0.01);
  });

  it('is no number where nothing tells it: no differences at all, or no slope', () => {
    const none = growthOf(surface(() => Number.NaN));
    for (const value of Object.values(none)) expect(value).toBeNaN();
    const level = surface(() => 0.01);
    for (let i = 0; i < level.normals.length; i += 3) level.normals.set(rotate(back.rotation, [0, 0, 1]), i);
    for (const value of Object.values(growthOf(level))) expect(value).toBeNaN();
  });

  it('reads every so-manieth of very many places, and finds the same', () => {
    const found = growthOf(surface(moved, 40_000));
    expect(found.x).toBeCloseTo(0.004, 6);
    expect(found.z).toBeCloseTo(0.02, 6);
  });
});

describe('blocks of a face', () => {
  it('are six by six, numbered along x first, the outermost taking what lies beyond', () => {
    expect(blockOf(-9.99, -9.99, 10, 6)).toBe(0);
    expect(blockOf(-6.7, -9, 10, 6)).toBe(0);
    expect(blockOf(-6.6, -9, 10, 6)).toBe(1);
    expect(blockOf(0.01, 0.01, 10, 6)).toBe(21);
    expect(blockOf(-0.01, 0.01, 10, 6)).toBe(20);
    expect(blockOf(0.01, -0.01, 10, 6)).toBe(15);
    expect(blockOf(99, 99, 10, 6)).toBe(35);
    expect(blockOf(-99, 99, 10, 6)).toBe(30);
  });

  it('left out in turn give the standard error of a mean as its formula does: s / √n', () => {
    const values = [3, 1, 4, 1, 5, 9, 2, 6];
    const mean = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0) / list.length;
    const [sd] = jackknife(values.length, (without) => [mean(values.filter((_, k) => k !== without))]);
    const s = Math.sqrt(values.reduce((sum, v) => sum + (v - mean(values)) ** 2, 0) / (values.length - 1));
    expect(sd).toBeCloseTo(s / Math.sqrt(values.length), 12);
  });

  it('whose absence leaves no estimate are passed over; one is not enough', () => {
    expect(jackknife(3, (k) => [k === 1 ? Number.NaN : k])[0]).toBeCloseTo(1, 12);
    expect(jackknife(3, (k) => [k === 0 ? 1 : Number.NaN])).toEqual([]);
  });
});

describe('robust lines', () => {
  it('weigh by (1 − u²)² within the reach and by nothing beyond', () => {
    expect(tukeyWeight(0, 2)).toBe(1);
    expect(tukeyWeight(4.685, 2)).toBeCloseTo(0.75 ** 2, 12);
    expect(tukeyWeight(-9.36, 2)).toBeGreaterThan(0);
    expect(tukeyWeight(9.38, 2)).toBe(0);
    expect(tukeyWeight(3, 2, 3)).toBeCloseTo(0.75 ** 2, 12);
  });

  it('take σ of the median of absolute residuals, at least what is stated', () => {
    expect(robustSigma([-1, 2, -3, 4, 5])).toBeCloseTo(3 * 1.4826, 3);
    expect(robustSigma([0, 0, 0], 0.5)).toBe(0.5);
  });

  it('with weights give the least-squares line: y = 2 + 3x through its points, whatever the weights', () => {
    const sums = noSums();
    [1, 4, 6, 7].forEach((x, k) => {
      addPoint(sums, x, 2 + 3 * x, k + 1);
    });
    const { slope, offset } = plainSlope(sums);
    expect(slope).toBeCloseTo(3, 12);
    expect(offset).toBeCloseTo(2, 12);
    expect(sums.w).toBe(10);
    // Two at 0 of weights 1 and 3, one at 1: the line goes through their weighted mean.
    const uneven = noSums();
    addPoint(uneven, 0, 0, 1);
    addPoint(uneven, 0, 4, 3);
    addPoint(uneven, 1, 5, 2);
    expect(plainSlope(uneven).offset).toBeCloseTo(3, 12);
    expect(plainSlope(uneven).slope).toBeCloseTo(2, 12);
  });

  it('leave a sixth of wild points out', () => {
    const random = seededRandom(6);
    const x = Array.from({ length: 300 }, (_, k) => k / 30);
    const y = x.map((v, k) => (k % 6 === 0 ? 20 : 0) + 1 - 0.5 * v + 0.01 * random.normal());
    const line = robustLine(x, y);
    expect(line.slope).toBeCloseTo(-0.5, 2);
    expect(line.offset).toBeCloseTo(1, 2);
    expect(line.sigma).toBeGreaterThan(0.008);
    expect(line.sigma).toBeLessThan(0.03);
  });
});
