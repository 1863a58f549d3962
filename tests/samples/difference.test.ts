import { describe, expect, it } from 'vitest';
import { differencesFrom } from '../../sample-scans/generator/difference.ts';
import { eachCell, emptyField, heightAt } from '../../sample-scans/generator/field.ts';
import { leastSquaresSimilarity } from '../../sample-scans/generator/umeyama.ts';
import { noWarp } from '../../sample-scans/generator/warp.ts';
import { apply, identity, rotationAbout, type Similarity, seededRandom } from '../../src/core/geometry/index.ts';

describe('the true difference', () => {
  const field = emptyField(4, 4, 0.05);
  eachCell(field, (index, x, y) => {
    field.z[index] = 0.4 * Math.sin(2.2 * x) * Math.cos(1.7 * y);
  });
  const placement = { sense: 'relief', size: 1, warp: noWarp, scanFromFace: identity } as const;

  it('equals the closest of a dense sampling of the surface', () => {
    const random = seededRandom(9);
    for (let k = 0; k < 60; k++) {
      const [x, y] = [random.between(-2.5, 2.5), random.between(-2.5, 2.5)];
      const z = heightAt(field, x, y) + random.between(-0.5, 0.5);
      const [found] = differencesFrom(Float64Array.from([x, y, z]), Uint8Array.of(1), identity, placement, field, 1);
      let best = Number.POSITIVE_INFINITY;
      for (let v = -0.7; v <= 0.7; v += 0.01)
        for (let u = -0.7; u <= 0.7; u += 0.01)
          best = Math.min(best, Math.hypot(u, v, heightAt(field, x + u, y + v) - z));
      expect(Math.abs(found)).toBeCloseTo(best, 2);
      expect(Math.abs(found)).toBeLessThan(best + 1e-3);
      expect(Math.sign(found)).toBe(Math.sign(z - heightAt(field, x, y)));
    }
  });
});

describe('the least-squares similarity', () => {
  it('finds the similarity that moved the points, and no better one exists near it when they are noisy', () => {
    const random = seededRandom(2);
    const truth: Similarity = { scale: 1.023, rotation: rotationAbout([0.6, 0, 0.8], 2.1), translation: [5, -70, 12] };
    const from = Float64Array.from({ length: 300 }, () => random.between(-20, 20));
    const to = new Float64Array(300);
    for (let i = 0; i < 300; i += 3) to.set(apply(truth, [from[i], from[i + 1], from[i + 2]]), i);
    const found = leastSquaresSimilarity(from, to);
    expect(found.scale).toBeCloseTo(truth.scale, 10);
    found.rotation.forEach((value, i) => {
      expect(value).toBeCloseTo(truth.rotation[i], 10);
    });
    for (let i = 0; i < 300; i++) to[i] += 0.1 * random.normal();
    const best = leastSquaresSimilarity(from, to);
    const squares = (m: Similarity): number => {
      let sum = 0;
      for (let i = 0; i < 300; i += 3)
        apply(m, [from[i], from[i + 1], from[i + 2]]).forEach((value, a) => {
          sum += (value - to[i + a]) ** 2;
        });
      return sum;
    };
    for (let a = 0; a < 3; a++)
      for (const step of [-1e-3, 1e-3]) {
        const translation = best.translation.map(
          (value, k) => value + (k === a ? step : 0),
        ) as unknown as Similarity['translation'];
        expect(squares({ ...best, translation })).toBeGreaterThan(squares(best));
      }
    for (const scale of [best.scale * 0.9999, best.scale * 1.0001])
      expect(squares({ ...best, scale })).toBeGreaterThan(squares(best) - 1e-6);
  });
});
