import { describe, expect, it } from 'vitest';
import { levelPair } from '../../../src/core/condition/relief/level.ts';
import type { SubjectSurface } from '../../../src/core/condition/relief/subject.ts';
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
});
