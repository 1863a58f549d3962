import { STLLoader } from 'three/addons/loaders/STLLoader.js';
import { describe, expect, it } from 'vitest';
import { readScan } from '../../src/core/scan/index.ts';
import { ball, binaryStl, bytesOf, moved, textStl } from './shapes.ts';
import { asSet, cornersInFile, largestDifference } from './surfaces.ts';

const shape = moved(ball(5), 20, 30, -40);

describe('STL', () => {
  it('is the same in text and in binary, and its corners are joined', async () => {
    const text = await readScan(textStl(shape), 'a.stl');
    const binary = await readScan(binaryStl(shape), 'a.stl');
    expect(text.vertices).toBe(shape.positions.length / 3);
    expect(text.repairs.welded).toBe(shape.triangles.length - shape.positions.length / 3);
    expect(binary.mesh.triangles).toEqual(text.mesh.triangles);
    expect(largestDifference(cornersInFile(binary.mesh), cornersInFile(text.mesh))).toBeLessThan(4e-6);
  });

  it('numbers vertices in the order in which they first appear', async () => {
    const { mesh } = await readScan(textStl(shape), 'a.stl');
    let next = 0;
    for (const corner of mesh.triangles) {
      expect(corner).toBeLessThanOrEqual(next);
      if (corner === next) next++;
    }
  });

  it('is binary where the length says so, even if it begins with "solid"', async () => {
    const scan = await readScan(binaryStl(shape, 'solid facet normal vertex endsolid'), 'a.stl');
    expect(scan.triangles).toBe(shape.triangles.length / 3);
  });

  it('agrees with an independent reader (three.js STLLoader)', async () => {
    for (const bytes of [textStl(shape), binaryStl(shape)]) {
      const loaded = new STLLoader().parse(bytes.slice().buffer).getAttribute('position').array;
      expect(asSet(cornersInFile((await readScan(bytes, 'a.stl')).mesh), 4)).toEqual(asSet(loaded, 4));
    }
  });

  it('takes several solids, capitals, tabs, one line and names that look like keywords', async () => {
    const one = new TextDecoder().decode(textStl(ball(1), 'vertex 1 2 3 facet'));
    const two = new TextDecoder().decode(textStl(moved(ball(1), 50, 0, 0), '')).toUpperCase();
    const flat = new TextDecoder().decode(textStl(moved(ball(1), 0, 50, 0), 'x')).replace(/\s+/g, ' ');
    const scan = await readScan(bytesOf(`${one}${two.replaceAll(' ', '\t')}${flat}\n`), 'a.stl');
    expect(scan.triangles).toBe(36);
  });

  it('takes a count of zero from the length, and passes over bytes behind the last facet', async () => {
    const bytes = binaryStl(shape);
    const uncounted = bytes.slice();
    new DataView(uncounted.buffer).setUint32(80, 0, true);
    const longer = Uint8Array.from([...bytes, 1, 2, 3]);
    for (const variant of [uncounted, longer])
      expect((await readScan(variant, 'a.stl')).triangles).toBe(shape.triangles.length / 3);
  });

  it('joins −0 with 0', async () => {
    const bytes = binaryStl({
      positions: Float64Array.from([0, 0, 0, 1, 0, 0, 0, 1, 0, -0, -0, 0, 0, 1, -0, -1, 0, 0]),
      triangles: Uint32Array.from([0, 1, 2, 3, 4, 5]),
    });
    expect((await readScan(bytes, 'a.stl')).vertices).toBe(4);
  });

  it('keeps a vertex that is not a number on its own and leaves its triangle out', async () => {
    const positions = Float64Array.from([0, 0, 0, 1, 0, 0, 0, 1, 0, Number.NaN, 0, 0, 5, 5, 5, 6, 5, 5]);
    const scan = await readScan(binaryStl({ positions, triangles: Uint32Array.from([0, 1, 2, 3, 4, 5]) }), 'a.stl');
    expect(scan.triangles).toBe(1);
    expect(scan.repairs).toMatchObject({ notANumber: 1, cornerNotANumber: 1, welded: 0 });
  });
});
