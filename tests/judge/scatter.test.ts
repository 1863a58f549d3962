import { inverse, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import type { Place } from '../../src/core/judge/patches.ts';
import { type ScatterOptions, scatterFit } from '../../src/core/judge/scatter.ts';

const options: ScatterOptions = {
  sizeMm: 30,
  windowMm2: 3.2,
  spacingMm: 0.013,
  degree: 2,
  outliers: 0.08,
  outlierWeight: 30,
  absent: 2,
};

/** Patches over a face, shifted by a smooth flow, a scatter and their own errors; some of them anywhere. */
function patches(count: number, seed: number, scatterMm: number, strays = 0): Place[] {
  const random = seededRandom(seed);
  return Array.from({ length: count }, (_, k) => {
    const [x, y] = [random.between(-14, 14), random.between(-14, 14)];
    const [sx, sy, tilt] = [random.between(0.01, 0.04), random.between(0.01, 0.04), random.between(-0.6, 0.6)];
    const covariance = [sx ** 2, tilt * sx * sy, sy ** 2] as const;
    const stray = k < strays;
    const e = [random.normal(), random.normal()];
    return {
      x,
      y,
      dx:
        0.02 * (x / 15) ** 2 + 0.01 * y * 0.1 + (stray ? random.between(-0.8, 0.8) : Math.hypot(sx, scatterMm) * e[0]),
      dy: -0.03 * (x / 15) + 0.01 + (stray ? random.between(-0.8, 0.8) : Math.hypot(sy, scatterMm) * e[1]),
      covariance,
      doubt: k % 4 === 0 ? 0.3 : 0.03,
    } as Place;
  });
}

/** The same by the definition: every patch predicted by a fit to all the others, whole matrices, no formulas for leaving out. */
function byRefitting(list: readonly Place[], sigmaMm: number, o: ScatterOptions, errorScale: number) {
  const rows = list.map(({ x, y }) => {
    const [u, v] = [x / (o.sizeMm / 2), y / (o.sizeMm / 2)];
    const out: number[] = [];
    for (let p = 0; p <= o.degree; p++) for (let q = 0; q <= o.degree - p; q++) out.push(u ** p * v ** q);
    return out;
  });
  const m = rows[0].length;
  const design = rows.map(
    (row) =>
      new Matrix([
        [...row, ...row.map(() => 0)],
        [...row.map(() => 0), ...row],
      ]),
  );
  const error = list.map(({ covariance: [xx, xy, yy] }) => {
    const both = new Matrix([
      [xx, xy],
      [xy, yy],
    ]).mul(errorScale ** 2);
    return both.add(Matrix.eye(2).mul(sigmaMm ** 2 + (errorScale * o.spacingMm) ** 2));
  });
  let [member, epsilon] = [list.map(() => 1), o.outliers];
  let [each, left]: [number[], number[][]] = [[], []];
  for (let round = 0; round < 12; round++) {
    const one = list.map((patch, i) => {
      const h = Matrix.eye(2 * m);
      const g = Matrix.zeros(2 * m, 1);
      list.forEach((other, j) => {
        if (j === i) return;
        const w = inverse(error[j]).mul(member[j]);
        h.add(design[j].transpose().mmul(w).mmul(design[j]));
        g.add(
          design[j]
            .transpose()
            .mmul(w)
            .mmul(Matrix.columnVector([other.dx, other.dy])),
        );
      });
      const covariance = inverse(h);
      const at = design[i].mmul(covariance).mmul(g);
      const r = [patch.dx - at.get(0, 0), patch.dy - at.get(1, 0)];
      const s = design[i].mmul(covariance).mmul(design[i].transpose()).add(error[i]);
      const det = s.get(0, 0) * s.get(1, 1) - s.get(0, 1) ** 2;
      const square = Matrix.rowVector(r).mmul(inverse(s)).mmul(Matrix.columnVector(r)).get(0, 0);
      // Of three kinds: in its place, out of it, and matched with what does not correspond.
      const kinds = [
        (1 - patch.doubt) * (1 - epsilon) * (Math.exp(-square / 2) / (2 * Math.PI * Math.sqrt(det))),
        ((1 - patch.doubt) * epsilon) / o.windowMm2,
        patch.doubt / o.windowMm2,
      ];
      return { r, kinds, sum: kinds.reduce((sum, kind) => sum + kind, 0) };
    });
    each = one.map(({ sum }) => Math.log(sum));
    left = one.map(({ r }) => r);
    const shares = [0, 1, 2].map((k) => one.map(({ kinds, sum }) => kinds[k] / sum));
    member = shares[0];
    const [, outside, astray] = shares.map((share) => share.reduce((sum, value) => sum + value, 0));
    epsilon = (outside + o.absent + o.outlierWeight * o.outliers) / (list.length - astray + o.absent + o.outlierWeight);
  }
  // A Beta-like prior about the share expected, and those found nowhere.
  const prior =
    o.outlierWeight *
    (o.outliers * Math.log(epsilon / o.outliers) + (1 - o.outliers) * Math.log((1 - epsilon) / (1 - o.outliers)));
  return {
    each,
    left: left.flat(),
    member,
    epsilon,
    logLikelihood: each.reduce((sum, value) => sum + value, 0) + prior + o.absent * Math.log(epsilon / o.windowMm2),
  };
}

describe('the scatter of places', () => {
  it.each([
    ['one matrix', 20, 0.01, 0, 1, 2],
    ['with strays', 24, 0.02, 4, 0.85, 2],
    ['few, along straight lines', 11, 0.05, 1, 1.2, 1],
    ['many strays under another legend', 26, 0.03, 12, 0.6, 1],
  ])('is weighed as by refitting without each patch in turn: %s', (_, count, scatterMm, strays, scale, degree) => {
    const list = patches(count, count, scatterMm, strays);
    const given = { ...options, degree };
    for (const sigma of [0.008, 0.07, 0.4]) {
      const got = scatterFit(list, sigma, given, scale);
      const want = byRefitting(list, sigma, given, scale);
      expect(got.sigmaMm).toBe(sigma);
      expect(got.epsilon).toBeCloseTo(want.epsilon, 8);
      expect(got.logLikelihood).toBeCloseTo(want.logLikelihood, 6);
      want.each.forEach((value, i) => {
        expect(got.each[i]).toBeCloseTo(value, 6);
        expect(got.member[i]).toBeCloseTo(want.member[i], 6);
        expect(got.left[2 * i]).toBeCloseTo(want.left[2 * i], 8);
        expect(got.left[2 * i + 1]).toBeCloseTo(want.left[2 * i + 1], 8);
      });
    }
  });

  it('is likeliest at the scatter that there is', () => {
    for (const truth of [0.01, 0.06, 0.3]) {
      const list = patches(90, 7, truth);
      const found = [0.005, 0.01, 0.02, 0.06, 0.12, 0.3, 0.7].map((sigma) =>
        scatterFit(list, sigma, { ...options, absent: 0 }),
      );
      const best = found.reduce((a, b) => (b.logLikelihood > a.logLikelihood ? b : a));
      expect(Math.abs(Math.log(best.sigmaMm / truth))).toBeLessThan(0.75);
    }
  });

  it('takes strays for what they are', () => {
    const { member } = scatterFit(patches(60, 3, 0.01, 6), 0.014, options);
    expect(member.slice(6).filter((value) => value > 0.9).length).toBeGreaterThan(50);
    expect(member.slice(0, 6).filter((value) => value < 0.2).length).toBeGreaterThanOrEqual(5);
  });

  it('minds a place that lies anywhere the less, the more it was doubted', () => {
    const list = patches(60, 5, 0.01);
    const costs = [0.01, 0.1, 0.5].map((doubt) => {
      const [still, moved] = [0, 0.5].map((away) =>
        scatterFit([{ ...list[0], dx: list[0].dx + away, doubt }, ...list.slice(1)], 0.01, options),
      );
      return still.logLikelihood - moved.logLikelihood;
    });
    expect(costs[1]).toBeLessThan(costs[0]);
    expect(costs[2]).toBeLessThan(costs[1] - 1);
  });

  it('does not change when both axes are exchanged or turned round', () => {
    const list = patches(30, 9, 0.02, 2);
    const turned = list.map((p) => ({
      ...p,
      x: -p.y,
      y: p.x,
      dx: -p.dy,
      dy: p.dx,
      covariance: [p.covariance[2], -p.covariance[1], p.covariance[0]] as const,
    }));
    expect(scatterFit(turned, 0.02, options).logLikelihood).toBeCloseTo(
      scatterFit(list, 0.02, options).logLikelihood,
      6,
    );
  });
});
