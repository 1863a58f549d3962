import { describe, expect, it } from 'vitest';
import { chainOf } from '../../../../src/core/condition/marks/lines/chains.ts';
import { stepsAside } from '../../../../src/core/condition/marks/lines/ownWay.ts';
import { shownOn } from '../../../../src/core/condition/marks/lines/shownOn.ts';
import { designHeight, pair, pitch, type Surface } from '../../pressedSeal.ts';

/** A ridge 0.1 mm high and 0.6 mm wide at its foot along a quarter of a circle of 6 mm about (−5, −4). */
const [x0, y0, radius] = [-5, -4, 6];
const onBend = (x: number, y: number): boolean => x > x0 && y > y0;
const bend: Surface = (x, y) =>
  onBend(x, y) ? 0.1 * Math.max(0, 1 - Math.abs(Math.hypot(x - x0, y - y0) - radius) / 0.3) : 0;
const plus =
  (...parts: readonly Surface[]): Surface =>
  (x, y) =>
    parts.reduce((sum, part) => sum + part(x, y), 0);
/** A broad form and a slope that the bend runs over. */
const dome: Surface = (x, y) => 0.8 * Math.exp(-((x + 1) ** 2 + y ** 2) / 12) + 0.05 * x;
const flat: Surface = () => 0;

function shown(subject: Surface, reference: Surface) {
  const seen = pair(subject, reference, 0);
  const { width, left, top, z } = seen.reference;
  const cells = [...z.keys()].filter((i) => {
    const [x, y] = [left + (i % width) * pitch, top - Math.floor(i / width) * pitch];
    return x > x0 + 0.4 && y > y0 + 0.4 && Math.abs(Math.hypot(x - x0, y - y0) - radius) <= pitch / 2;
  });
  const chain = chainOf(seen.reference, cells, () => 0.1);
  return { seen, chain, on: shownOn(seen, chain) };
}

describe('a line across its own way', () => {
  it('is taken aside by the radius of its bend at every cell', () => {
    const { seen, chain } = shown(bend, flat);
    const { width, left, top } = seen.reference;
    const stepAt = stepsAside(seen.reference, chain);
    const placeOf = (i: number): number =>
      Math.hypot(left + (i % width) * pitch - x0, top - Math.floor(i / width) * pitch - y0);
    chain.cells.forEach((i, k) => {
      expect(Math.abs(Math.abs(placeOf(i + stepAt(k, 5)) - placeOf(i)) - 5 * pitch)).toBeLessThan(1.2 * pitch);
    });
  });

  it('has its height on the face that carries it and none on the other, whatever broad form both have', () => {
    for (const ground of [flat, dome, designHeight]) {
      const { on } = shown(plus(ground, bend), ground);
      expect(on?.onSubjectMm).toBeGreaterThan(0.06);
      expect(on?.onSubjectMm).toBeLessThan(0.12);
      expect(Math.abs(on?.onReferenceMm ?? 1)).toBeLessThan(0.01);
      expect(on?.steady).toBeGreaterThan(0.6);
    }
  });

  it('changes places with the faces, and leaves on the other the share that is left there', () => {
    const there = shown(plus(dome, bend), dome).on;
    const back = shown(dome, plus(dome, bend)).on;
    expect(back?.onReferenceMm).toBeCloseTo(there?.onSubjectMm ?? 0, 3);
    const worn = shown(
      plus(dome, (x, y) => 0.4 * bend(x, y)),
      plus(dome, bend),
    ).on;
    expect((worn?.onSubjectMm ?? 0) / (worn?.onReferenceMm ?? 1)).toBeGreaterThan(0.3);
    expect((worn?.onSubjectMm ?? 0) / (worn?.onReferenceMm ?? 1)).toBeLessThan(0.5);
  });

  it('is told from a form along one stretch of it', () => {
    const block: Surface = (x, y) => (Math.hypot(x - x0, y - y0) < radius - 0.5 && y > x + 1.2 ? 0.3 : 0);
    expect(Math.abs(shown(plus(block, bend), block).on?.onReferenceMm ?? 1)).toBeLessThan(0.02);
  });

  it('is not steady where the difference shows it along half of its way only', () => {
    const half: Surface = (x, y) => (y - y0 > x - x0 ? bend(x, y) : 0);
    expect(shown(half, flat).on?.steady).toBeLessThan(0.4);
  });

  it('says nothing where one of the two has no surface', () => {
    expect(shown(bend, (x, y) => (onBend(x, y) ? Number.NaN : 0)).on).toBeNull();
  });
});
