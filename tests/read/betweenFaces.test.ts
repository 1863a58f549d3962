import { describe, expect, it } from 'vitest';
import {
  compose,
  identity,
  rotationAbout,
  type Similarity,
  turnOver,
  type Vec3,
} from '../../src/core/geometry/index.ts';
import { betweenFaces } from '../../src/core/read/index.ts';

const motion = (axis: Vec3, angle: number, translation: Vec3 = [0, 0, 0]): Similarity => ({
  ...{ scale: 1, rotation: rotationAbout(axis, angle), translation },
});
const side = (faceFromScan: Similarity, upFrom: 'stated' | 'scan' = 'stated') => ({ faceFromScan, upFrom });
/** The other side of a piece 9 mm thick, its centre (0.6, 0.8) mm away and its top turned clockwise by so many degrees as seen on it. */
const behind = (deg: number): Similarity =>
  compose(motion([0, 0, 1], (deg * Math.PI) / 180), compose(turnOver, motion([0, 0, 1], 0, [-0.6, -0.8, 9])));

describe('two sides of one object', () => {
  it.each([0, 12, 90, -45])('a turn of %i°, their offset and thickness', (deg) => {
    const between = betweenFaces(side(identity), side(behind(deg)));
    expect(between?.thicknessMm).toBeCloseTo(9, 9);
    expect(between?.offsetMm).toBeCloseTo(1, 9);
    expect(between?.turnDeg).toBeCloseTo(deg, 9);
  });

  it('however the object lies', () => {
    const lying = motion([0.48, 0.6, 0.64], 1.1, [5, 6, 7]);
    const moved = [identity, behind(30)].map((face) => side(compose(face, lying)));
    expect(betweenFaces(moved[0], moved[1])?.turnDeg).toBeCloseTo(30, 6);
  });

  it('no turn without tops, and nothing of faces that do not look away from one another', () => {
    expect(betweenFaces(side(identity), side(behind(30), 'scan'))?.turnDeg).toBeNull();
    expect(betweenFaces(side(identity), side(motion([1, 0, 0], 1.2)))).toBeNull();
  });
});
