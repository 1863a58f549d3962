import { describe, expect, it } from 'vitest';
import { affineOf, invertAffine, nudge, type PlanarFit, turnBetweenDeg } from '../../src/core/fit/similarity2d.ts';
import { liftPlanar } from '../../src/core/fit/similarity3d.ts';
import { apply, determinant3, type Random, seededRandom } from '../../src/core/geometry/index.ts';

function anyFit(random: Random, flipX: boolean, negate = flipX): PlanarFit {
  return {
    flipX,
    negate,
    turn: random.between(-3, 3),
    scale: random.between(0.9, 1.1),
    tx: random.normal(),
    ty: random.normal(),
  };
}

function moved(fit: PlanarFit, x: number, y: number): [number, number] {
  const m = affineOf(fit);
  return [m.a * x + m.b * y + m.tx, m.c * x + m.d * y + m.ty];
}

const ways = [false, true].flatMap((flipX) => [false, true].map((negate) => [flipX, negate] as const));

describe('affineOf', () => {
  it('turns counter-clockwise, grows, then flips, then shifts, as its formula says', () => {
    const quarter: PlanarFit = { flipX: true, negate: true, turn: Math.PI / 2, scale: 2, tx: 10, ty: 0 };
    const [x, y] = moved(quarter, 1, 0);
    expect(x).toBeCloseTo(10, 12);
    expect(y).toBeCloseTo(2, 12);
    const [u, v] = moved(quarter, 0, 1);
    expect(u).toBeCloseTo(12, 12);
    expect(v).toBeCloseTo(0, 12);
  });

  for (const flipX of [false, true])
    it(`is undone by its inverse, flipped: ${flipX}`, () => {
      const random = seededRandom(1);
      const fit = anyFit(random, flipX);
      const back = invertAffine(affineOf(fit));
      const [x, y] = moved(fit, 0.7, -1.9);
      expect(back.a * x + back.b * y + back.tx).toBeCloseTo(0.7, 12);
      expect(back.c * x + back.d * y + back.ty).toBeCloseTo(-1.9, 12);
    });
});

describe('nudge', () => {
  for (const flipX of [false, true])
    it(`is the fit followed by a small motion of the reference's plane, flipped: ${flipX}`, () => {
      const random = seededRandom(2);
      const fit = anyFit(random, flipX);
      const [dTurn, dScale, dx, dy] = [0.03, -0.02, 0.4, -0.1];
      const [c, s] = [(1 + dScale) * Math.cos(dTurn), (1 + dScale) * Math.sin(dTurn)];
      for (const [x, y] of [
        [0, 0],
        [1, 0],
        [-2, 3],
      ]) {
        const [u, v] = moved(fit, x, y);
        const [p, q] = moved(nudge(fit, dTurn, dScale, dx, dy), x, y);
        expect(p).toBeCloseTo(c * u - s * v + dx, 12);
        expect(q).toBeCloseTo(s * u + c * v + dy, 12);
      }
    });
});

describe('turnBetweenDeg', () => {
  for (const flipX of [false, true])
    it(`counts clockwise on the reference's face as seen, flipped: ${flipX}`, () => {
      const base = anyFit(seededRandom(3), flipX);
      // Turned by 20° clockwise on the reference's face, y up.
      expect(turnBetweenDeg(nudge(base, (-20 * Math.PI) / 180, 0, 0, 0), base)).toBeCloseTo(20, 10);
      expect(turnBetweenDeg(nudge(base, (170 * Math.PI) / 180, 0, 0, 0), base)).toBeCloseTo(-170, 10);
    });

  it('stays within half a circle however often the turn went round', () => {
    const base = anyFit(seededRandom(4), false);
    for (const turns of [-3, 1, 2])
      expect(turnBetweenDeg({ ...base, turn: base.turn + 2 * Math.PI * turns + 0.1 }, base)).toBeCloseTo(
        (-0.1 * 180) / Math.PI,
        8,
      );
  });
});

describe('liftPlanar', () => {
  for (const [flipX, negate] of ways)
    it(`does in space what the fit does in the plane, flipped: ${flipX}, heights negated: ${negate}`, () => {
      const fit = anyFit(seededRandom(5), flipX, negate);
      const lifted = liftPlanar(fit);
      const [x, y, z] = apply(lifted, [0.4, -1.2, 0.3]);
      const [u, v] = moved(fit, 0.4, -1.2);
      expect([x, y]).toEqual([expect.closeTo(u, 12), expect.closeTo(v, 12)]);
      expect(z).toBeCloseTo((negate ? -1 : 1) * fit.scale * 0.3, 12);
    });

  it('is a rotation where both or neither change sign, and a reflection where one alone does', () => {
    for (const [flipX, negate] of ways)
      expect(determinant3(liftPlanar(anyFit(seededRandom(6), flipX, negate)).rotation)).toBeCloseTo(
        flipX === negate ? 1 : -1,
        12,
      );
  });
});
