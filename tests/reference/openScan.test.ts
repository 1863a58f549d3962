import { cells, positions } from 'bunny';
import { describe, expect, it } from 'vitest';
import { apply, compose, invert, rotationAbout, type Similarity, type Vec3 } from '../../src/core/geometry/index.ts';
import { type PreparedScan, prepareScan, weighPrepared } from '../../src/core/pipeline.ts';
import { readScan, writePly } from '../../src/core/scan/index.ts';

// A range-scanned figure made by others, thinned to 1,839 vertices, from the npm package of its name (public domain by its notice; after the
// Stanford 3D Scanning Repository): a real scan that every clone has. Taken as centimetres it is 15 cm long.

const obj = (at: readonly Vec3[]): Uint8Array => {
  const vertices = at.map((p) => `v ${p.join(' ')}`);
  const faces = cells.map((corners) => `f ${corners.map((i) => i + 1).join(' ')}`);
  return new TextEncoder().encode([...vertices, ...faces].join('\n'));
};
const ply = (at: readonly Vec3[]): Uint8Array => writePly(Float32Array.from(at.flat()), Uint32Array.from(cells.flat()));
const prepared = (name: string, bytes: Uint8Array): Promise<PreparedScan> =>
  prepareScan({ name, bytes, unit: 'cm', sha256: () => '' });

/** Another pose, 7 and −3 cm away. */
const moved: Similarity = { scale: 1, rotation: rotationAbout([0.6, 0, 0.8], 2.1), translation: [7, -3, 0.5] };

describe('a range-scanned figure of others', () => {
  it('is read whole, in whatever format, closed, with nothing to mend', async () => {
    for (const [name, bytes] of [
      ['figure.obj', obj(positions)],
      ['figure.ply', ply(positions)],
    ] as const) {
      const { mesh, repairs } = await readScan(bytes, name);
      expect([mesh.positions.length / 3, mesh.triangles.length / 3], name).toEqual([1839, 3674]);
      expect(Object.values(repairs), name).toEqual(Object.values(repairs).map(() => 0));
    }
  });

  const both = Promise.all([
    prepared('a.ply', ply(positions)),
    prepared('b.ply', ply(positions.map((p) => apply(moved, p)))),
  ]);

  it('shows the same side in any pose', async () => {
    const [a, b] = await both;
    expect(b.face.sense).toBe(a.face.sense);
    expect(b.face.outline.widthMm / a.face.outline.widthMm).toBeCloseTo(1, 1);
    expect(b.face.outline.heightMm / a.face.outline.heightMm).toBeCloseTo(1, 1);
  });

  it('laid on itself from another pose comes back to where it was, and no other matrix is claimed', async () => {
    const [a, b] = await both;
    const { fit, weighed } = weighPrepared(a, b);
    expect(fit.found).toBe(true);
    expect(weighed?.finding).not.toMatch(/against|otherDesign/);
    const centred = (scan: PreparedScan, sign: 1 | -1): Similarity => ({
      scale: 1,
      rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1],
      translation: scan.scan.mesh.offset.map((v) => sign * v) as unknown as Vec3,
    });
    const inMm = { ...moved, translation: moved.translation.map((v) => 10 * v) as unknown as Vec3 };
    const found = compose(centred(a, 1), compose(fit.models[1].referenceFromSubject, centred(b, -1)));
    const rest = compose(found, inMm);
    for (const p of positions.slice(0, 200)) {
      const at = p.map((v) => 10 * v) as unknown as Vec3;
      const off = apply(rest, at).map((v, k) => v - at[k]);
      expect(Math.hypot(...off)).toBeLessThan(0.05);
    }
    expect(invert(rest).scale).toBeCloseTo(1, 3);
  });
});
