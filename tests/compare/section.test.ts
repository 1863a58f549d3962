import { describe, expect, it } from 'vitest';
import { section } from '../../src/core/compare/index.ts';
import { cutByPlane, profileOf } from '../../src/core/compare/planeCut.ts';
import { apply, compose, invert, type Mesh, type Vec3 } from '../../src/core/geometry/index.ts';
import { bumpySheet } from '../geometry/surface.ts';
import { anyMotion, dieMesh, impressionMesh, model, moved, side, turnOver } from './pair.ts';

describe('cutByPlane', () => {
  /** A sphere of 5 mm radius as triangles between meridians. */
  function ball(rings: number): Mesh {
    const positions: number[] = [];
    for (let i = 0; i <= rings; i++)
      for (let j = 0; j < 2 * rings; j++) {
        const [a, b] = [(Math.PI * i) / rings, (Math.PI * j) / rings];
        positions.push(5 * Math.sin(a) * Math.cos(b), 5 * Math.sin(a) * Math.sin(b), 5 * Math.cos(a));
      }
    const triangles: number[] = [];
    for (let i = 0; i < rings; i++)
      for (let j = 0; j < 2 * rings; j++) {
        const next = (j + 1) % (2 * rings);
        const [a, b, c, d] = [
          [i, j],
          [i + 1, j],
          [i + 1, next],
          [i, next],
        ].map(([r, m]) => 2 * rings * r + m);
        triangles.push(a, b, c, a, c, d);
      }
    return { positions: Float32Array.from(positions), triangles: Uint32Array.from(triangles), offset: [0, 0, 0] };
  }

  it('cuts a sphere in the circle √(r² − c²), from outside and from inside', () => {
    const { positions, triangles } = ball(200);
    const at = Float64Array.from({ length: 161 }, (_, i) => i / 20);
    const cut = cutByPlane(Float64Array.from(positions), triangles, [-4, 1.5, 4, 1.5]);
    const [above, below] = [profileOf(cut, at, 1), profileOf(cut, at, -1)];
    at.forEach((s, i) => {
      const truth = Math.sqrt(25 - 1.5 ** 2 - (s - 4) ** 2);
      expect(Math.abs(above[i] - truth)).toBeLessThan(0.002);
      expect(Math.abs(below[i] + truth)).toBeLessThan(0.002);
    });
  });

  it('gives heights that are exact on a plane, and none beyond it', () => {
    const sheet = bumpySheet(30, 10, 1, (x, y) => 0.25 * x - 0.5 * y);
    const at = Float64Array.from({ length: 100 }, (_, i) => (i * 14) / 99);
    const cut = cutByPlane(Float64Array.from(sheet.positions), sheet.triangles, [-7, 0.123, 7, 0.123]);
    profileOf(cut, at, 1).forEach((z, i) => {
      const x = at[i] - 7;
      if (Math.abs(x) > 5) expect(z).toBeNaN();
      else expect(z).toBeCloseTo(0.25 * x - 0.5 * 0.123, 5);
    });
    expect(profileOf(cut, at, -1).every(Number.isNaN)).toBe(true);
  });
});

describe('section', () => {
  const die = side(dieMesh(1), 'intaglio');

  it('shows both surfaces of a perfect pair in one place, wherever the subject lies', () => {
    const motion = anyMotion(0.97);
    const wax = side(moved(impressionMesh(2), motion), 'relief');
    const cut = section(die, wax, model('oneScale', compose(turnOver, invert(motion))), true, [-7, -2, 6, 3]);
    expect(cut.at[cut.at.length - 1]).toBeCloseTo(Math.hypot(13, 5), 9);
    const gaps = cut.at.map((_, i) => cut.reference[i] - cut.subject[i]);
    expect(gaps.some(Number.isNaN)).toBe(false);
    expect(gaps.map(Math.abs).sort()[Math.floor(0.95 * gaps.length)]).toBeLessThan(0.02);
  });

  it('measures a cut across the die: depth 0.4 mm, flanks 45° and 60°', () => {
    // A cut along y at x = 0 in a level field.
    const shape = (x: number): number => Math.min(0, -0.4 + Math.max(-x, x * Math.tan(Math.PI / 3)));
    const scored = side(
      bumpySheet(300, 7, 1, (x) => shape(x)),
      'intaglio',
      { face: die.face },
    );
    const blank = side(
      bumpySheet(100, 20, 2, () => 0),
      'intaglio',
      { face: die.face },
    );
    const place = (x: number, y: number): Vec3 => apply(die.face.faceFromScan, [x, y, 0]);
    const [from, to] = [place(-3, -2), place(3, -2)];
    const still = model('oneScale', { ...turnOver, rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1] });
    const { groove } = section(scored, blank, still, false, [from[0], from[1], to[0], to[1]]);
    expect(groove?.on).toBe('reference');
    expect(groove?.sunk).toBe(true);
    expect(Math.abs((groove?.depthMm ?? 9) - 0.4)).toBeLessThan(0.03);
    const flanks = [...(groove?.flankDeg ?? [])].sort();
    expect(Math.abs(flanks[0] - 45)).toBeLessThan(2);
    expect(Math.abs(flanks[1] - 60)).toBeLessThan(2);
  });

  it('moves the subject by the model’s warp too', () => {
    const coefficients = new Float64Array(12);
    coefficients[0] = 0.2;
    const wax = side(impressionMesh(2), 'relief');
    const warp = { before: { ...turnOver, rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1] }, radiusMm: 10, coefficients };
    const bent = section(die, wax, model('smoothWarp', turnOver, { warp }), true, [-8, 0, 8, 0]);
    const flat = section(die, wax, model('oneScale', turnOver), true, [-8, 0, 8, 0]);
    const k = Math.floor(bent.at.length / 8);
    expect(bent.subject[k] - flat.subject[k]).toBeCloseTo(0.2 * ((bent.at[k] - 8) / 10) ** 2, 2);
  });
});
