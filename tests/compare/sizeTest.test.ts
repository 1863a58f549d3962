import { describe, expect, it } from 'vitest';
import { compareFaces } from '../../src/core/compare/index.ts';
import { quotient, sizeFromMatrix } from '../../src/core/compare/materials.ts';
import { sizeTest } from '../../src/core/compare/sizeTest.ts';
import { compose, type Mesh } from '../../src/core/geometry/index.ts';
import { sizeWords } from '../../src/core/report/words/index.ts';
import { dieMesh, fitOf, impressionMesh, type Side, side, turnOver } from './pair.ts';

const noGrowth = { x: 0, y: 0, z: 0, sdX: 1e-4, sdY: 1e-4, sdZ: 1e-4 };
const stated = { scaleUncertaintyPercent: 0.1, scaleUncertaintyFrom: 'stated' } as const;
const matrix = { sense: 'intaglio', kind: 'matrix', ...stated } as const;
const wax = { sense: 'relief', kind: 'impression', material: 'wax', ...stated } as const;

/** Size test of a pair whose one-scale model has the given scale (reference ÷ subject). */
function sized(scale: number, reference: Parameters<typeof sizeTest>[3] = matrix, subject: typeof reference = wax) {
  const fit = fitOf({ ...turnOver, scale }, true);
  return sizeTest(fit, { x: scale, y: scale, z: scale }, noGrowth, reference, subject);
}

describe('sizeTest', () => {
  it('is subject ÷ reference: below 1 for wax that shrank', () => {
    const size = sized(1 / 0.98);
    for (const key of ['ratio', 'x', 'y', 'depth'] as const) expect(size[key]).toBeCloseTo(0.98, 9);
    expect(sizeWords(size.reading[0])).toContain('2.0 % smaller');
  });

  it('carries the scale uncertainty of both scans', () => {
    expect(sized(1).sd).toBeCloseTo(Math.hypot(0.001, 0.001, 1e-4), 9);
  });

  it('decides nothing where a scan’s scale uncertainty was assumed, and says whose', () => {
    const { reading } = sized(1 / 0.98, matrix, {
      ...wax,
      scaleUncertaintyFrom: 'assumed',
      scaleUncertaintyPercent: 0.3,
    });
    const text = reading.map(sizeWords).join(' ');
    expect(text).toContain('Size decides nothing');
    expect(text).toContain('subject');
    expect(text).not.toContain('agrees');
  });

  it.each([
    [0.98, 'the size agrees', 'speaks against that'],
    [1.02, 'the size does not agree', 'agrees with that'],
  ])('at a ratio of %f reads: one matrix: %s; recast from the impression: %s', (ratio, own, recast) => {
    const text = sized(1 / ratio)
      .reading.map(sizeWords)
      .join(' ');
    expect(text).toContain(own);
    expect(text).toContain(recast);
  });

  it('turns the readings round with a negative as subject: the genuine matrix is the larger', () => {
    const genuine = sized(0.98, wax, matrix).reading.map(sizeWords).join(' ');
    expect(genuine).toContain('the size agrees');
    expect(genuine).toContain('speaks against that');
    const recast = sized(1 / 0.98, wax, matrix)
      .reading.map(sizeWords)
      .join(' ');
    expect(recast).toContain('the size does not agree');
    expect(recast).toContain('agrees with that');
  });

  it('has the ranges of the trade: wax impression 0.966 to 0.998 of its matrix, matrix 1.002 to 1.035 of the wax', () => {
    expect(sizeFromMatrix(wax).range).toEqual([0.966, 0.998]);
    const [least, most] = quotient(sizeFromMatrix(matrix).range, sizeFromMatrix(wax).range);
    expect(least).toBeCloseTo(1.002, 3);
    expect(most).toBeCloseTo(1.035, 3);
  });
});

/** The mesh drawn to other sizes along its own axes. */
const stretched = (mesh: Mesh, factors: readonly number[]): Mesh => ({
  ...mesh,
  positions: mesh.positions.map((value, i) => value * factors[i % 3]),
});

describe('size along the axes', () => {
  const die = side(dieMesh(1, undefined, 0.003), 'intaglio', { kind: 'matrix' });
  const pressed = impressionMesh(2, turnOver, undefined, 0.003);
  const compared = (subject: Side) =>
    compareFaces(die, subject, fitOf(compose(turnOver, { ...turnOver, rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1] }), true));

  it('finds what each axis was drawn to, one part in two thousand in the plane and one in a hundred in depth', () => {
    const { size } = compared(side(stretched(pressed, [0.996, 1.003, 0.95]), 'relief', { kind: 'impression' }));
    // The face frame of a square sheet may take x and y either way round: the sheet's x is along the face's x here.
    const [x, y] = Math.abs(die.face.faceFromScan.rotation[0]) > 0.7 ? [size.x, size.y] : [size.y, size.x];
    expect(Math.abs(x - 0.996)).toBeLessThan(0.0005);
    expect(Math.abs(y - 1.003)).toBeLessThan(0.0005);
    expect(Math.abs(size.depth - 0.95)).toBeLessThan(0.01);
    expect(size.reading.map(sizeWords).join(' ')).toContain('Across and along differ');
  });

  it('says nothing of stretch or depth where there is none', () => {
    const { size } = compared(side(pressed, 'relief', { kind: 'impression' }));
    for (const key of ['x', 'y'] as const) expect(Math.abs(size[key] - 1)).toBeLessThan(0.0005);
    expect(Math.abs(size.depth - 1)).toBeLessThan(0.01);
    expect(size.reading.map(sizeWords).join(' ')).not.toContain('Across and along');
    expect(size.reading.map(sizeWords).join(' ')).toContain('as deep as');
  });
});
