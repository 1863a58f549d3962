import { Mesh } from 'three';
import { OBJLoader } from 'three/addons/loaders/OBJLoader.js';
import { describe, expect, it } from 'vitest';
import { readScan } from '../../src/core/scan/index.ts';
import { bumpySheet, bytesOf, shuffled, textObj } from './shapes.ts';
import { asSet, cornersInFile } from './surfaces.ts';

const read = async (text: string) => (await readScan(bytesOf(text), 'a.obj')).mesh;
const square = 'v 0 0 0\nv 4 0 0\nv 4 4 0\nv 0 4 0\n';

describe('OBJ', () => {
  it('keeps the order of vertices and triangles', async () => {
    const shape = shuffled(bumpySheet(12, 9), 2);
    const mesh = (await readScan(textObj(shape), 'A.OBJ')).mesh;
    expect(mesh.triangles).toEqual(shape.triangles);
    expect(mesh.positions.length).toBe(shape.positions.length);
  });

  it('agrees with an independent reader (three.js OBJLoader), groups, colours and polygons included', async () => {
    const text = `# made by hand\nmtllib none.mtl\no first\n${square}vt 0 0\nvn 0 0 1\ng An f Three v Other\ns off\nf 1/1/1 2/1/1 3/1/1 4/1/1\no second\nv 9 0 1 0.5 0.5 0.5\nv 9 4 2 nan nan nan\nusemtl none\nf -2//1 -1//1 3//1\nf 5 3 2\no third\nl 1 2\no fourth\np 1\n`;
    const loaded: number[] = [];
    new OBJLoader().parse(text).traverse((part) => {
      // Lines and points come as other kinds of objects.
      if (part instanceof Mesh) loaded.push(...part.geometry.getAttribute('position').array);
    });
    expect(loaded.length).toBe(4 * 9);
    expect(asSet(cornersInFile(await read(text)), 5)).toEqual(asSet(loaded, 5));
  });

  it('counts negative corners from the vertices so far, and takes vertices that come later', async () => {
    expect([...(await read(`${square}f -4 -3 -2\nv 0 0 5\nf -5 -3 -1\n`)).triangles]).toEqual([0, 1, 2, 0, 2, 4]);
    expect([...(await read(`f 1 2 3\n${square}`)).triangles]).toEqual([0, 1, 2]);
  });

  it('follows a line over backslashes and stops at a comment', async () => {
    const mesh = await read(
      `v 0 \\\n 0 0\nv 4 0 0\r\nv 4 4 0\nv 0 4 0\nf 1 2 \\\r\n 3 4 # 99 98\n# a path c:\\scans\\\nf 1 3 4\n`,
    );
    expect([...mesh.triangles]).toEqual([0, 1, 2, 0, 2, 3]);
  });

  it('counts faces of two corners as skipped', async () => {
    const scan = await readScan(bytesOf(`${square}f 1 2\nf 1 2 3\nf\n`), 'a.obj');
    expect(scan.repairs.degenerate).toBe(2);
    expect(scan.triangles).toBe(1);
  });

  it.each([
    ['f 1 2 9', /names a vertex/],
    ['f 0 1 2', /names a vertex/],
    ['f -9 1 2', /names a vertex/],
    ['f 1 2 x', /names the corner "x"/],
    ['v 1 2', /fewer than three numbers/],
    ['v 1,5 2 3', /"1,5" where a number should stand/],
  ])('refuses %s', async (line, message) => {
    await expect(read(`${square}f 1 2 3\n${line}\n`)).rejects.toThrow(message);
  });
});
