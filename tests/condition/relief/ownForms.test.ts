import { describe, expect, it } from 'vitest';
import { onOneForm } from '../../../src/core/condition/relief/ownForms.ts';
import type { SubjectSurface } from '../../../src/core/fit/index.ts';
import { cellsWhere, designHeight, gridOf, pitch, type Surface, sizeMm } from '../pressedSeal.ts';

const a = gridOf(designHeight);
const inside = cellsWhere(a, (x, y) => Math.hypot(x, y) < 0.49 * sizeMm);

function onCells(surface: Surface): SubjectSurface {
  const at = (col: number, row: number): number => surface(a.left + col * pitch, a.top - row * pitch);
  return { at, sharpAt: at };
}

/** The most that is left between the reference and the subject on its form, over cells of the place asked for. */
function left(surface: Surface, where: (x: number, y: number) => boolean): number {
  const b = onOneForm(a, onCells(surface), inside);
  let most = 0;
  cellsWhere(a, (x, y) => Math.hypot(x, y) < 0.49 * sizeMm && where(x, y)).forEach((chosen, i) => {
    if (!chosen || !a.mask[i]) return;
    const [col, row] = [i % a.width, Math.floor(i / a.width)];
    most = Math.max(most, Math.abs(b.at(col, row) - a.z[i]), Math.abs(b.sharpAt(col, row) - a.z[i]));
  });
  return most;
}

const everywhere = (): boolean => true;

describe('the subject on the form of the reference', () => {
  it('leaves a face that fits as it is', () => {
    expect(left(designHeight, everywhere)).toBeLessThan(1e-4);
  });

  it('takes off any difference of second order, however high', () => {
    const domed: Surface = (x, y) =>
      designHeight(x, y) + 0.3 + 0.01 * x - 0.003 * x * x + 0.001 * x * y + 0.002 * y * y;
    expect(left(domed, everywhere)).toBeLessThan(1e-4);
  });

  it('leaves a low dome to levelling, which follows it by itself', () => {
    const low: Surface = (x, y) => designHeight(x, y) + 0.0001 * (x * x + y * y);
    expect(left(low, everywhere)).toBeGreaterThan(0.01);
  });

  it('takes off the dome though one shows a wall all round and lacks its tops', () => {
    const wall = (x: number, y: number): boolean => Math.hypot(x, y) > 0.45 * sizeMm;
    const worn = (x: number, y: number): boolean => designHeight(x, y) > 0.9;
    const walled: Surface = (x, y) =>
      designHeight(x, y) - 0.002 * (x * x + y * y) + (wall(x, y) ? 1.5 : worn(x, y) ? -0.3 : 0);
    expect(left(walled, (x, y) => !wall(x, y) && !worn(x, y))).toBeLessThan(0.005);
  });
});
