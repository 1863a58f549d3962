import { describe, expect, it } from 'vitest';
import { type IcpOptions, icp } from '../../src/core/fit/icp.ts';
import {
  apply,
  compose,
  identity,
  invert,
  normalise,
  rotationAbout,
  type Similarity,
  seededRandom,
  turnOver,
} from '../../src/core/geometry/index.ts';
import { bumps, pointsOn, targetOf } from './relief.ts';

const relief = bumps(2, 12, 70);
const target = targetOf(relief, 14, 0.1);

const options: IcpOptions = {
  scale: true,
  warp: false,
  meeting: 'closest',
  opposed: false,
  radiusMm: 12,
  reachMm: [1.5, 0.3],
  rounds: 30,
  floorMm: 0.003,
};

const small = (deg: number, shiftMm: number, scale = 1): Similarity => ({
  scale,
  rotation: rotationAbout(normalise([0.4, -0.7, 1]), (deg * Math.PI) / 180),
  translation: [shiftMm, -0.6 * shiftMm, 0.3 * shiftMm],
});

/** Root mean square distance between where two motions take the points. */
function apart(a: Similarity, b: Similarity, positions: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < positions.length; i += 3) {
    const p = [positions[i], positions[i + 1], positions[i + 2]] as const;
    const [q, r] = [apply(a, p), apply(b, p)];
    sum += (q[0] - r[0]) ** 2 + (q[1] - r[1]) ** 2 + (q[2] - r[2]) ** 2;
  }
  return Math.sqrt((3 * sum) / positions.length);
}

describe('icp', () => {
  for (const meeting of ['closest', 'alongHeight'] as const)
    it(`comes back to the truth from 3° and half a millimetre off, meeting: ${meeting}`, () => {
      const truth = small(40, 5, 1.02);
      const points = pointsOn(relief, 0.4, 11, invert(truth));
      const start = compose(small(3, 0.5), truth);
      const found = icp(target, points, start, { ...options, meeting });
      expect(apart(start, truth, points.positions)).toBeGreaterThan(0.5);
      expect(found.converged).toBe(true);
      expect(apart(found.motion, truth, points.positions)).toBeLessThan(0.002);
      expect(found.motion.scale).toBeCloseTo(1.02, 4);
      expect(found.inlierShare).toBeGreaterThan(0.9);
    });

  it('converges with a factor below a tenth per round near the answer', () => {
    const points = pointsOn(relief, 0.4, 11);
    const off = (rounds: number): number =>
      apart(
        icp(target, points, small(0.6, 0.05), { ...options, rounds, reachMm: [0.3, 0.3], scale: false }).motion,
        identity,
        points.positions,
      );
    expect(off(1)).toBeLessThan(0.1 * off(0));
    expect(off(2)).toBeLessThan(0.1 * off(1));
  });

  it('lays a turned-over surface on its die when it is told that the normals are opposed', () => {
    const truth = compose(small(10, 1), turnOver);
    const die = pointsOn(relief, 0.4, 11, invert(truth));
    const wax = { positions: die.positions, normals: die.normals.map((value) => -value) };
    const start = compose(small(2, 0.3), truth);
    const found = icp(target, wax, start, { ...options, opposed: true });
    expect(apart(found.motion, truth, wax.positions)).toBeLessThan(0.002);
    const told = icp(target, wax, start, { ...options, rounds: 1 });
    expect(told.inlierShare).toBeLessThan(0.05);
  });

  it('does not care how the whole scene lies: moving both moves the answer', () => {
    const scene = small(75, 40);
    const points = pointsOn(relief, 0.5, 11, invert(small(20, 2)));
    const start = compose(small(2, 0.3), small(20, 2));
    const here = icp(target, points, start, options);
    const positions = points.positions.slice();
    for (let i = 0; i < positions.length; i += 3)
      positions.set(apply(scene, [positions[i], positions[i + 1], positions[i + 2]]), i);
    const normals = points.normals.slice();
    const turn: Similarity = { ...scene, translation: [0, 0, 0] };
    for (let i = 0; i < normals.length; i += 3)
      normals.set(apply(turn, [normals[i], normals[i + 1], normals[i + 2]]), i);
    const there = icp(target, { positions, normals }, compose(start, invert(scene)), options);
    expect(apart(compose(there.motion, scene), here.motion, points.positions)).toBeLessThan(1e-9);
    expect(there.rmsMm).toBeCloseTo(here.rmsMm, 10);
  });

  it('is not led away by tops that were rubbed down, nor by a third of the face that is gone', () => {
    const whole = pointsOn(relief, 0.4, 11);
    const kept = [...whole.positions.keys()].filter((k) => whole.positions[k - (k % 3)] < 3.5);
    const points = {
      positions: Float64Array.from(kept, (k) =>
        k % 3 === 2 ? Math.min(0.15, whole.positions[k]) : whole.positions[k],
      ),
      normals: Float64Array.from(kept, (k) => whole.normals[k]),
    };
    expect(points.positions.filter((z, k) => k % 3 === 2 && z === 0.15).length).toBeGreaterThan(kept.length / 60);
    const found = icp(target, points, small(1, 0.2), options);
    expect(apart(found.motion, identity, points.positions)).toBeLessThan(0.005);
  });

  it('leaves the size alone where it is not free', () => {
    const points = pointsOn(relief, 0.4, 11, { ...identity, scale: 1 / 1.03 });
    const rigid = icp(target, points, identity, { ...options, scale: false });
    expect(rigid.motion.scale).toBe(1);
    const free = icp(target, points, identity, options);
    expect(free.motion.scale).toBeCloseTo(1.03, 4);
    expect(rigid.rmsMm).toBeGreaterThan(5 * free.rmsMm);
  });

  it('recovers a smooth warp along with the motion', () => {
    const points = pointsOn(relief, 0.4, 11);
    const random = seededRandom(3);
    const bend = (x: number, y: number): number => 0.15 * (x / 12) ** 2 - 0.1 * ((x * y) / 144) + 0.08 * (y / 12) ** 3;
    for (let i = 0; i < points.positions.length; i += 3)
      points.positions[i + 2] -= bend(points.positions[i], points.positions[i + 1]) + 0.002 * random.normal();
    const found = icp(target, points, small(1, 0.1), { ...options, warp: true });
    expect(found.rmsMm).toBeLessThan(0.004);
    expect(found.bending[0]).toBeCloseTo(0.15, 2);
    expect(found.bending[1]).toBeCloseTo(-0.1, 2);
    expect(found.bending[6]).toBeCloseTo(0.08, 2);
    for (const k of [2, 3, 4, 5, 7, 8, 9, 10, 11]) expect(Math.abs(found.bending[k])).toBeLessThan(0.02);
  });

  it('says that it has not settled when it is stopped early', () => {
    const points = pointsOn(relief, 0.8, 11);
    expect(icp(target, points, small(3, 0.5), { ...options, rounds: 2 }).converged).toBe(false);
  });
});
