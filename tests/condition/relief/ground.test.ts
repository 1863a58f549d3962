import { describe, expect, it } from 'vitest';
import { heightOverGround, onOwnForm } from '../../../src/core/condition/relief/ground.ts';
import { type HeightGrid, xOf, yOf } from '../../../src/core/geometry/index.ts';

const pitch = 0.2;
const half = 60;
const radius = 11;

/** A round face of bars 0.3 mm high on a form, and what lies beyond its edge. */
function face(formMm: (x: number, y: number) => number, wallMm = 0) {
  const width = 2 * half + 1;
  const grid: HeightGrid = {
    width,
    height: width,
    pitch,
    left: -half * pitch,
    top: half * pitch,
    z: new Float32Array(width * width),
    mask: new Uint8Array(width * width).fill(1),
  };
  const made = new Float32Array(width * width);
  const inside = new Uint8Array(width * width);
  for (let i = 0; i < made.length; i++) {
    const [x, y] = [xOf(grid, i % width), yOf(grid, Math.floor(i / width))];
    inside[i] = Math.hypot(x, y) < radius ? 1 : 0;
    made[i] = inside[i] && ((x % 3) + 3) % 3 < 0.8 ? 0.3 : 0;
    grid.z[i] = made[i] + formMm(x, y) + (inside[i] ? 0 : wallMm);
  }
  return { grid, made, inside };
}

describe('height over the ground', () => {
  it('is that of the design on any second-order form, to the edge, whatever wall stands beyond', () => {
    const dome = (x: number, y: number): number => 0.4 - 0.006 * (x * x + y * y) + 0.02 * x;
    for (const [form, wallMm] of [
      [() => 0, 0],
      [dome, 0],
      [dome, 1.5],
    ] as const) {
      const { grid, made, inside } = face(form, wallMm);
      const found = heightOverGround(onOwnForm(grid, inside), made, inside);
      const worst = found.reduce((most, z, i) => (inside[i] ? Math.max(most, Math.abs(z - made[i])) : most), 0);
      expect(worst).toBeLessThan(0.005);
    }
  });
});
