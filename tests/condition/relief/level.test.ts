import { describe, expect, it } from 'vitest';
import { levelPair } from '../../../src/core/condition/relief/level.ts';
import type { SubjectSurface } from '../../../src/core/fit/index.ts';
import { cellsWhere, designHeight, gridOf, pitch, type Surface, sizeMm } from '../pressedSeal.ts';

const a = gridOf(designHeight);
const inside = cellsWhere(a, (x, y) => Math.hypot(x, y) < 0.49 * sizeMm);

/** A surface asked at places in cells of `a`. */
function onCells(surface: Surface): SubjectSurface {
  const at = (col: number, row: number): number => surface(a.left + col * pitch, a.top - row * pitch);
  return { at, sharpAt: at };
}

/** Quantiles of |b − a| over cells of the field and of letters' flanks alike. */
function residual(surface: Surface, share: number, where: (x: number, y: number) => boolean = () => true): number {
  const b = levelPair(a, onCells(surface), inside, sizeMm);
  const chosen = cellsWhere(a, where);
  const values: number[] = [];
  for (let i = 0; i < b.z.length; i++) if (inside[i] && chosen[i] && b.mask[i]) values.push(Math.abs(b.z[i] - a.z[i]));
  return values.sort((p, q) => p - q)[Math.floor(share * (values.length - 1))];
}

describe('levelPair', () => {
  it('leaves a face that fits as it is', () => {
    expect(residual(designHeight, 0.99)).toBeLessThan(0.002);
  });

  it('takes off a shift, a lift and a smooth bending between the faces', () => {
    const bent: Surface = (x, y) => designHeight(x + 0.1 + 0.004 * y, y - 0.06) + 0.05 + 0.0002 * x * y;
    expect(residual((x, y) => bent(x, y), 0.95)).toBeLessThan(0.02);
    // Before levelling the flanks alone differ by more than that.
    const flank = designHeight(14.4, 0) - bent(14.4, 0);
    expect(Math.abs(flank)).toBeGreaterThan(0.04);
  });

  it('does not swallow wear of the tops or a broken-in hollow', () => {
    const worn: Surface = (x, y) => {
      const h = designHeight(x, y);
      return Math.hypot(x - 10, y + 3) < 2 ? h - 0.4 : h > 0.5 ? 0.5 + 0.5 * (h - 0.5) : h;
    };
    const top = (x: number, y: number): boolean => designHeight(x, y) > 0.9;
    expect(residual(worn, 0.5, top)).toBeGreaterThan(0.2);
    expect(residual(worn, 0.5, (x, y) => Math.hypot(x - 10, y + 3) < 1.5)).toBeGreaterThan(0.37);
  });

  it('takes off the same whichever way the faces lie: turned by a quarter, mirrored', () => {
    const bent: Surface = (x, y) =>
      designHeight(x + 0.08 * Math.sin(x / 9), y - 0.05 * Math.cos(y / 8)) + 0.03 * Math.sin((x + 2 * y) / 11);
    const ways: [string, (x: number, y: number) => [number, number]][] = [
      ['as it is', (x, y) => [x, y]],
      ['turned', (x, y) => [-y, x]],
      ['mirrored', (x, y) => [-x, y]],
      ['upside down', (x, y) => [-x, -y]],
    ];
    const left = ways.map(([, way]) => {
      const own = gridOf((x, y) => designHeight(...way(x, y)));
      const b = levelPair(
        own,
        onCells((x, y) => bent(...way(x, y))),
        inside,
        sizeMm,
      );
      const values = [...b.z.keys()].filter((i) => inside[i] && b.mask[i]).map((i) => Math.abs(b.z[i] - own.z[i]));
      return values.sort((p, q) => p - q)[Math.floor(0.9 * values.length)];
    });
    for (const one of left) expect(one).toBeLessThan(0.01);
    for (const one of left) expect(Math.abs(one - left[0])).toBeLessThan(0.0015);
  });
});
