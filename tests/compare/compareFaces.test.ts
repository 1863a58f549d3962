import { describe, expect, it } from 'vitest';
import { compareFaces } from '../../src/core/compare/index.ts';
import { Cancelled, sampleGrid, scaleMesh } from '../../src/core/geometry/index.ts';
import { dieMesh, fitOf, identity, impressionMesh, side, turnOver } from './pair.ts';

const die = side(dieMesh(1), 'intaglio', { kind: 'matrix' });
const bump = (x: number, y: number): number => 0.15 * Math.exp(-((x + 1) ** 2 + (y - 7) ** 2));
const wax = side(impressionMesh(2, turnOver, bump), 'relief', { kind: 'impression' });

describe('compareFaces', () => {
  it('finds no difference between a scan and itself', () => {
    const d = compareFaces(die, die, fitOf(identity, false));
    expect(d.whole.rmsMm).toBeLessThan(1e-6);
    expect(d.whole.coveredFraction).toBeGreaterThan(0.95);
    expect(d.size.ratio).toBe(1);
    expect(d.significant?.some((value) => value === 1)).toBe(false);
    for (const key of ['x', 'y', 'depth'] as const) expect(d.size[key]).toBeCloseTo(1, 6);
  });

  it('shows a bump on the wax where the impression has it, standing against chance; the rest does not', () => {
    const d = compareFaces(die, wax, fitOf(turnOver, true));
    // The die's face is seen from behind: x of the impression's sense is −x of the die's face.
    const { rotation: r, translation: t } = die.face.faceFromScan;
    const [x, y] = [-(r[0] * -1 + r[1] * 7 + t[0]), r[3] * -1 + r[4] * 7 + t[1]];
    expect(sampleGrid(d.map, x, y)).toBeGreaterThan(0.12);
    const at = (grid: { width: number; pitch: number; left: number; top: number }, px: number, py: number): number =>
      Math.round((grid.top - py) / grid.pitch) * grid.width + Math.round((px - grid.left) / grid.pitch);
    expect(d.significant?.[at(d.map, x, y)]).toBe(1);
    const far = d.significant?.filter((_, i) => {
      const col = i % d.map.width;
      const row = Math.floor(i / d.map.width);
      return Math.hypot(d.map.left + col * d.map.pitch - x, d.map.top - row * d.map.pitch - y) > 4;
    });
    expect((far?.reduce((sum, value) => sum + value, 0) ?? 0) / (far?.length ?? 1)).toBeLessThan(0.005);
    expect(d.perVertexMm).toHaveLength(wax.mesh.positions.length / 3);
    expect(d.perVertexWarpedMm).toBeUndefined();
    expect(d.levelOfDetectionMm).toBeGreaterThan(0.015 * 1.96);
  });

  it('has a map, level and mask on the same cells, and zones that add up to the whole', () => {
    const d = compareFaces(die, wax, fitOf(turnOver, true));
    expect(d.levelOfDetection.mask).toEqual(d.map.mask);
    expect(d.levelOfDetection.width).toBe(d.map.width);
    expect(d.significant).toHaveLength(d.map.z.length);
    expect(d.zones.map(({ zone }) => zone)).toEqual(['legend', 'field', 'motif', 'border']);
    expect(d.whole.p95Mm).toBeLessThanOrEqual(Math.max(...d.zones.map(({ p95Mm }) => p95Mm)) + 1e-9);
  });

  it('gives differences twice as large for objects twice as large', () => {
    const one = compareFaces(die, wax, fitOf(turnOver, true)).whole;
    const twice = compareFaces(
      side(scaleMesh(die.mesh, 2), 'intaglio', { kind: 'matrix' }),
      side(scaleMesh(wax.mesh, 2), 'relief', { kind: 'impression' }),
      fitOf(turnOver, true),
    ).whole;
    expect(twice.rmsMm / one.rmsMm).toBeCloseTo(2, 1);
    expect(twice.p95Mm / one.p95Mm).toBeCloseTo(2, 1);
  });

  it('adds nothing for translucent wax where the subject is plaster', () => {
    const cast = { ...wax, face: wax.face, kind: 'cast', material: 'plaster' };
    const plain = compareFaces(die, cast, fitOf(turnOver, true)).levelOfDetectionMm;
    const waxy = compareFaces(die, { ...cast, material: 'beeswax' }, fitOf(turnOver, true)).levelOfDetectionMm;
    expect(waxy - plain).toBeGreaterThan(0.02);
    expect(waxy - plain).toBeLessThan(1.96 * 0.015 + 1e-9);
  });

  it('reports progress and stops when it is told to', () => {
    const seen: number[] = [];
    compareFaces(die, wax, fitOf(turnOver, true), { progress: (fraction) => seen.push(fraction) });
    expect(seen.length).toBeGreaterThan(2);
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(() => compareFaces(die, wax, fitOf(turnOver, true), { signal: { aborted: true } })).toThrow(Cancelled);
  });
});
