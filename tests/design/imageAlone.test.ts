import { describe, expect, it } from 'vitest';
import { imageAlone } from '../../src/core/design/legend/imageAlone.ts';
import type { HeightGrid } from '../../src/core/geometry/index.ts';

const side = 200;

/** A face of one height whose mask is 1 where `there` says so; x, y in cells from the middle. */
function faceOf(there: (x: number, y: number) => boolean) {
  const mask = Uint8Array.from({ length: side * side }, (_, i) =>
    there((i % side) - side / 2, Math.floor(i / side) - side / 2) ? 1 : 0,
  );
  const detail: HeightGrid = {
    width: side,
    height: side,
    pitch: 0.1,
    left: -10,
    top: 10,
    z: new Float32Array(mask.length),
    mask,
  };
  return { sense: 'relief', outline: { shape: 'round', polygon: new Float64Array(0) }, detail } as const;
}

const count = (mask: Uint8Array): number => mask.reduce((sum, cell) => sum + cell, 0);

describe('the image alone', () => {
  const disc = (x: number, y: number): boolean => Math.hypot(x, y) < 70;
  const hole = (x: number, y: number): boolean => Math.hypot(x - 20, y) < 12;

  it('is a disc as it is, to its very edge on all sides of the grid, and keeps its holes', () => {
    const { mask } = imageAlone(faceOf((x, y) => disc(x, y) && !hole(x, y)));
    const whole = faceOf((x, y) => disc(x, y) && !hole(x, y)).detail.mask;
    expect(count(mask)).toBeGreaterThan(0.995 * count(whole));
    expect(count(mask)).toBeLessThanOrEqual(count(whole));
    const filling = imageAlone(faceOf(() => true)).mask;
    expect(count(filling)).toBeGreaterThan(0.99 * side * side);
  });

  it('lacks a ring of lip that hangs on it by a bridge', () => {
    const lip = (x: number, y: number): boolean => Math.hypot(x, y) > 78 && Math.hypot(x, y) < 86 && y < 0;
    const bridge = (x: number, y: number): boolean => Math.abs(x) < 4 && y < 0 && Math.hypot(x, y) < 86;
    const { mask } = imageAlone(faceOf((x, y) => disc(x, y) || lip(x, y) || bridge(x, y)));
    const beyond = mask.filter((cell, i) => cell && Math.hypot((i % side) - 100, Math.floor(i / side) - 100) > 72);
    expect(beyond).toHaveLength(0);
    expect(count(mask)).toBeGreaterThan(0.99 * Math.PI * 70 * 70);
  });
});
