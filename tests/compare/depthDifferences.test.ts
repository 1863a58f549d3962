import { describe, expect, it } from 'vitest';
import { depthDifferences, depthTarget, subjectMotion } from '../../src/core/compare/index.ts';
import {
  buildSurfaceIndex,
  compose,
  invert,
  type Mesh,
  median,
  rootMeanSquare,
  type Similarity,
  scaleMesh,
} from '../../src/core/geometry/index.ts';
import { shuffledMesh } from '../geometry/surface.ts';
import {
  anyMotion,
  dieMesh,
  identity,
  impressionMesh,
  laidBack,
  model,
  moved,
  type Side,
  side,
  turnOver,
} from './pair.ts';

function differences(reference: Side, subject: Side, motion: Similarity, opposed: boolean, from?: number, to?: number) {
  const index = buildSurfaceIndex(reference.mesh, { normals: reference.normals });
  const target = depthTarget(reference.face, index, opposed);
  const out = new Float32Array(subject.mesh.positions.length / 3).fill(-9);
  const towards = subjectMotion(reference.face, model('oneScale', motion));
  depthDifferences(target, subject.mesh.positions, subject.normals, towards, out, from, to);
  return out;
}

const finite = (values: Float32Array): Float32Array => values.filter((v) => !Number.isNaN(v));
const die = side(dieMesh(1), 'intaglio');
const bump = (x: number, y: number): number => 0.1 * Math.exp(-((x + 1) ** 2 + (y - 7) ** 2));
/** The vertex of a sheet nearest to (x, y). */
const vertexAt = ({ positions }: Mesh, x: number, y: number): number => {
  let best = 0;
  const away = (i: number): number => (positions[3 * i] - x) ** 2 + (positions[3 * i + 1] - y) ** 2;
  for (let i = 1; i < positions.length / 3; i++) if (away(i) < away(best)) best = i;
  return best;
};

describe('depthDifferences', () => {
  it('of a scan against itself are zero everywhere on the face', () => {
    const d = differences(die, die, identity, false);
    expect(finite(d).length).toBeGreaterThan(0.9 * d.length);
    expect(finite(d).every((value) => Math.abs(value) < 1e-7)).toBe(true);
  });

  it('of a perfect impression are within what two samplings of one surface differ by', () => {
    const d = differences(die, side(impressionMesh(2), 'relief'), turnOver, true);
    expect(finite(d).length).toBeGreaterThan(0.9 * d.length);
    expect(median(finite(d).map(Math.abs))).toBeLessThan(0.001);
    expect(rootMeanSquare(d)).toBeLessThan(0.01);
  });

  it('are positive where the wax stands higher and where the die was filled since; negative the other way', () => {
    const places = [-1, 7] as const;
    const added = impressionMesh(2, turnOver, bump);
    // Turning over mirrors x: the vertex sits at −x on the subject.
    const at = vertexAt(added, -places[0], places[1]);
    expect(differences(die, side(added, 'relief'), turnOver, true)[at]).toBeCloseTo(0.1, 2);
    const rubbed = side(
      impressionMesh(2, turnOver, (x, y) => -bump(x, y)),
      'relief',
    );
    expect(differences(die, rubbed, turnOver, true)[at]).toBeCloseTo(-0.1, 2);
    const plain = side(impressionMesh(2), 'relief');
    const clogged = side(dieMesh(1, bump), 'intaglio');
    expect(differences(clogged, plain, turnOver, true)[at]).toBeCloseTo(0.1, 2);
    const cut = side(
      dieMesh(1, (x, y) => -bump(x, y)),
      'intaglio',
    );
    expect(differences(cut, plain, turnOver, true)[at]).toBeCloseTo(-0.1, 2);
  });

  it('between two of the same sense are positive where the subject stands higher', () => {
    const raised = dieMesh(2, bump);
    expect(differences(die, side(raised, 'intaglio'), identity, false)[vertexAt(raised, -1, 7)]).toBeCloseTo(0.1, 2);
  });

  it('do not change when both scans are moved, nor when the subject was drawn to another size that the fit knows', () => {
    const subject = impressionMesh(2, turnOver, bump);
    const still = differences(die, side(subject, 'relief'), turnOver, true);
    const motion = anyMotion(0.97);
    const away = side(moved(subject, motion), 'relief');
    const elsewhere = anyMotion();
    const dieAway = side(moved(die.mesh, elsewhere), 'intaglio');
    const fit = compose(elsewhere, compose(turnOver, invert(motion)));
    const d = differences(dieAway, away, fit, true);
    const both = [...d.keys()].filter((i) => !Number.isNaN(d[i]) && !Number.isNaN(still[i]));
    expect(both.length).toBeGreaterThan(0.98 * finite(still).length);
    // Positions are stored in float32: 10⁻⁶ of 20 mm.
    expect(Math.max(...both.map((i) => Math.abs(d[i] - still[i])))).toBeLessThan(2e-5);
  });

  it('scale with the objects', () => {
    const subject = impressionMesh(2, turnOver, bump);
    const one = differences(die, side(subject, 'relief'), turnOver, true);
    const two = differences(
      side(scaleMesh(die.mesh, 2), 'intaglio'),
      side(scaleMesh(subject, 2), 'relief'),
      turnOver,
      true,
    );
    const both = [...one.keys()].filter((i) => !Number.isNaN(one[i]) && !Number.isNaN(two[i]));
    expect(both.length).toBeGreaterThan(0.98 * finite(one).length);
    expect(Math.max(...both.map((i) => Math.abs(two[i] - 2 * one[i])))).toBeLessThan(1e-6);
  });

  it('are the same whatever the order of the vertices, to 10⁻⁶', () => {
    const subject = impressionMesh(2, turnOver, bump);
    const plain = differences(die, side(subject, 'relief'), turnOver, true);
    const shuffled = shuffledMesh(subject, 5);
    const reordered = side(shuffledMesh(die.mesh, 6).mesh, 'intaglio', { face: die.face });
    const d = differences(reordered, side(shuffled.mesh, 'relief'), turnOver, true);
    const strays = [...plain.keys()].filter((i) => {
      const other = d[shuffled.newVertexOf[i]];
      return Number.isNaN(plain[i]) !== Number.isNaN(other) || Math.abs(other - plain[i]) > 1e-6;
    });
    expect(strays).toEqual([]);
  });

  it('can be computed in ranges, each as it is in the whole', () => {
    const subject = side(impressionMesh(2), 'relief');
    const whole = differences(die, subject, turnOver, true);
    const part = differences(die, subject, turnOver, true, 5000, 9000);
    expect(part.subarray(5000, 9000)).toEqual(whole.subarray(5000, 9000));
    expect(part[4999]).toBe(-9);
    expect(part[9000]).toBe(-9);
  });

  it('are not a number where the reference has a hole, beyond its rim, far away, and for a vertex of no triangle', () => {
    const hole = die.mesh.triangles.filter((_, i, t) => {
      const p = 3 * t[i - (i % 3)];
      return Math.hypot(die.mesh.positions[p] - 3, die.mesh.positions[p + 1]) > 1;
    });
    const holed = side({ ...die.mesh, triangles: hole }, 'intaglio', { face: die.face });
    const subject = impressionMesh(2);
    const d = differences(holed, side(subject, 'relief'), turnOver, true);
    expect(d[vertexAt(subject, -3, 0)]).toBeNaN();
    expect(d[vertexAt(subject, -4.5, 0)]).not.toBeNaN();
    const shifted: Similarity = { ...turnOver, translation: [6, 0, 0] };
    const aside = differences(die, side(subject, 'relief'), shifted, true);
    expect(aside[vertexAt(subject, -9, 0)]).toBeNaN();
    expect(aside[vertexAt(subject, 3, 0)]).not.toBeNaN();
    const lifted: Similarity = { ...turnOver, translation: [0, 0, 3] };
    expect(finite(differences(die, side(subject, 'relief'), lifted, true))).toHaveLength(0);
    const stray: Mesh = { ...subject, positions: Float32Array.of(...subject.positions, 0, 0, 0) };
    const all = differences(die, side(stray, 'relief'), laidBack(identity), true);
    expect(all[all.length - 1]).toBeNaN();
  });
});
