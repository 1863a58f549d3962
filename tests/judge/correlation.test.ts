import { describe, expect, it } from 'vitest';
import { emptyGrid, type HeightGrid, seededRandom, withHeights } from '../../src/core/geometry/index.ts';
import { arealAgreement, weightedAgreement } from '../../src/core/judge/correlation.ts';

function relief(seed: number): HeightGrid {
  const random = seededRandom(seed);
  const grid = emptyGrid(0, 4, 0, 3, 0.1);
  grid.mask.fill(1);
  for (let i = 0; i < grid.z.length; i++) grid.z[i] = random.normal();
  return grid;
}

const changed = (grid: HeightGrid, change: (z: number) => number): HeightGrid => withHeights(grid, grid.z.map(change));

describe('arealAgreement', () => {
  const a = relief(1);

  // Song and Vorburger 2006 (definitions from memory): b = 0.97 a, 0.5 a, −a.
  for (const [factor, correlation, difference] of [
    [0.97, 1, 0.0009],
    [0.5, 1, 0.25],
    [-1, -1, 4],
    [1, 1, 0],
  ])
    it(`is ${correlation} and ${difference} for a surface ${factor} times as high`, () => {
      const found = arealAgreement(
        a,
        changed(a, (z) => factor * z),
      );
      expect(found.correlation).toBeCloseTo(correlation, 6);
      expect(found.topographyDifference).toBeCloseTo(difference, 6);
      expect(found.cells).toBe(a.z.length);
    });

  it('is taken about the means: a surface lifted as a whole is the same surface', () => {
    const found = arealAgreement(
      a,
      changed(a, (z) => z + 5),
    );
    expect(found.correlation).toBeCloseTo(1, 6);
    expect(found.topographyDifference).toBeCloseTo(0, 5);
  });

  it('near zero for surfaces that have nothing to do with one another', () => {
    expect(Math.abs(arealAgreement(a, relief(2)).correlation)).toBeLessThan(4 / Math.sqrt(a.z.length));
  });

  it('counts only cells where both have data, and of those only the ones asked for', () => {
    const [b, random] = [relief(3), seededRandom(4)];
    const holes = (): Uint8Array => Uint8Array.from({ length: a.z.length }, () => (random.next() < 0.3 ? 0 : 1));
    const [maskA, maskB, use] = [holes(), holes(), holes()];
    const dirty = (grid: HeightGrid, mask: Uint8Array): HeightGrid =>
      withHeights(
        grid,
        grid.z.map((z, i) => (mask[i] ? z : 1e6)),
        mask,
      );
    const found = arealAgreement(dirty(a, maskA), dirty(b, maskB), use);
    const kept = [...a.z.keys()].filter((i) => maskA[i] && maskB[i] && use[i]);
    const mean = (grid: HeightGrid): number => kept.reduce((sum, i) => sum + grid.z[i], 0) / kept.length;
    const [ma, mb] = [mean(a), mean(b)];
    const sum = (f: (i: number) => number): number => kept.reduce((total, i) => total + f(i), 0);
    const saa = sum((i) => (a.z[i] - ma) ** 2);
    const sbb = sum((i) => (b.z[i] - mb) ** 2);
    expect(found.cells).toBe(kept.length);
    expect(found.correlation).toBeCloseTo(sum((i) => (a.z[i] - ma) * (b.z[i] - mb)) / Math.sqrt(saa * sbb), 8);
    expect(found.topographyDifference).toBeCloseTo(sum((i) => (b.z[i] - mb - a.z[i] + ma) ** 2) / saa, 8);
  });

  it('says nothing of a plain field or of no field at all', () => {
    const flat = changed(a, () => 0.3);
    expect(arealAgreement(a, flat).correlation).toBe(0);
    expect(arealAgreement(a, flat).topographyDifference).toBeNaN();
    expect(arealAgreement(a, a, new Uint8Array(a.z.length))).toMatchObject({ correlation: 0, cells: 0 });
  });
});

describe('weightedAgreement', () => {
  const random = seededRandom(8);
  const n = 60;
  const [va, vb, weight] = [2, -3, 0].map((mean) => Float64Array.from({ length: n }, () => mean + random.normal()));
  weight.forEach((w, k) => {
    weight[k] = k % 5 === 0 ? 0 : Math.abs(w);
    if (k % 7 === 0) va[k] = Number.NaN;
  });
  const seen = [...va.keys()].filter((k) => !Number.isNaN(va[k]));
  const sum = (f: (k: number) => number): number => seen.reduce((total, k) => total + f(k), 0);

  it('is the weighted Pearson correlation about the weighted means, written from the definition', () => {
    const all = sum((k) => weight[k]);
    const [ma, mb] = [sum((k) => weight[k] * va[k]) / all, sum((k) => weight[k] * vb[k]) / all];
    const products = (x: Float64Array, mx: number, y: Float64Array, my: number): number =>
      sum((k) => weight[k] * (x[k] - mx) * (y[k] - my));
    const r = products(va, ma, vb, mb) / Math.sqrt(products(va, ma, va, ma) * products(vb, mb, vb, mb));
    const [correlation, kept] = weightedAgreement(va, vb, weight);
    expect(correlation).toBeCloseTo(r, 10);
    expect(kept).toBeCloseTo(all / seen.length, 10);
  });

  it('gives the spread of each about its own mean, whatever the weights', () => {
    const spread = (x: Float64Array): number => {
      const mean = sum((k) => x[k]) / seen.length;
      return Math.sqrt(sum((k) => (x[k] - mean) ** 2) / seen.length);
    };
    const [, , a, b] = weightedAgreement(va, vb, weight);
    expect([a, b]).toEqual([expect.closeTo(spread(va), 10), expect.closeTo(spread(vb), 10)]);
  });

  it('says nothing of a plain field', () => {
    expect(weightedAgreement(va, vb.fill(0.2), weight)[0]).toBe(0);
  });
});
