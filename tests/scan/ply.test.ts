import { PLYLoader } from 'three/addons/loaders/PLYLoader.js';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { readScan, writePly } from '../../src/core/scan/index.ts';
import { ball, bumpySheet, bytesOf, moved, shuffled, textPly } from './shapes.ts';
import { cornersInFile, largestDifference } from './surfaces.ts';

type PlyType = 'char' | 'uchar' | 'short' | 'ushort' | 'int' | 'uint' | 'float' | 'double';

/** Writes values one after another in the named types, in either byte order. */
class PlyBytes {
  private readonly bytes: number[] = [];
  private readonly little: boolean;

  constructor(little: boolean) {
    this.little = little;
  }

  add(type: PlyType, ...values: number[]): this {
    const [size, set] = setters[type];
    for (const value of values) {
      const view = new DataView(new ArrayBuffer(size));
      set(view, value, this.little);
      for (let i = 0; i < size; i++) this.bytes.push(view.getUint8(i));
    }
    return this;
  }

  behind(header: readonly string[], lineEnd = '\n'): Uint8Array {
    return Uint8Array.from([...bytesOf([...header, 'end_header', ''].join(lineEnd)), ...this.bytes]);
  }
}

const setters: Record<PlyType, [number, (view: DataView, value: number, little: boolean) => void]> = {
  char: [1, (view, value) => view.setInt8(0, value)],
  uchar: [1, (view, value) => view.setUint8(0, value)],
  short: [2, (view, value, little) => view.setInt16(0, value, little)],
  ushort: [2, (view, value, little) => view.setUint16(0, value, little)],
  int: [4, (view, value, little) => view.setInt32(0, value, little)],
  uint: [4, (view, value, little) => view.setUint32(0, value, little)],
  float: [4, (view, value, little) => view.setFloat32(0, value, little)],
  double: [8, (view, value, little) => view.setFloat64(0, value, little)],
};

const square = [
  [0, 0, 0],
  [4, 0, 0],
  [4, 4, 0],
  [0, 4, 0],
];

describe('PLY', () => {
  it('that we wrote comes back bit for bit, vertices in their order', async () => {
    const { positions, triangles } = shuffled(bumpySheet(30, 20), 3);
    const written = writePly(Float32Array.from(positions), triangles);
    const scan = await readScan(written, 'a.ply');
    expect(scan.mesh.triangles).toEqual(triangles);
    expect(
      largestDifference(
        cornersInFile(scan.mesh),
        cornersInFile({ positions: Float32Array.from(positions), triangles, offset: [0, 0, 0] }),
      ),
    ).toBeLessThan(2e-6);
    expect(scan).toMatchObject({ format: 'ply', vertices: 600, triangles: 1102, unitTrusted: false });
    expect(scan.unitInFile).toBeUndefined();
  });

  it('keeps float properties, NaN among them, and can be points only', () => {
    const values = Float32Array.from([0.25, Number.NaN, -3]);
    const bytes = writePly(new Float64Array(9).fill(1e7 + 0.125), null, [{ name: 'depth_difference_mm', values }]);
    const text = new TextDecoder('latin1').decode(bytes);
    const at = text.indexOf('end_header\n') + 11;
    expect(text.slice(0, at)).not.toContain('face');
    const view = new DataView(bytes.buffer);
    const read = [0, 1, 2].map((i) => view.getFloat32(at + i * 28 + 24, true));
    expect(read).toEqual([0.25, Number.NaN, -3]);
    expect(view.getFloat64(at, true)).toBe(1e7 + 0.125);
  });

  it.each(['\n', '\r\n', '\r'])('is the same in text and in both byte orders, lines ending in %j', async (lineEnd) => {
    const shape = moved(ball(6), 31, -7, 12);
    const header = (format: string) => [
      'ply',
      `format ${format} 1.0`,
      `element vertex ${shape.positions.length / 3}`,
      'property double x',
      'property double y',
      'property double z',
      `element face ${shape.triangles.length / 3}`,
      'property list uchar int vertex_indices',
    ];
    const binary = (little: boolean) => {
      const out = new PlyBytes(little).add('double', ...shape.positions);
      for (let i = 0; i < shape.triangles.length; i += 3)
        out.add('uchar', 3).add('int', ...shape.triangles.subarray(i, i + 3));
      return out.behind(header(little ? 'binary_little_endian' : 'binary_big_endian'), lineEnd);
    };
    const scans = await Promise.all(
      [textPly(shape, lineEnd), binary(true), binary(false)].map((bytes) => readScan(bytes, 'a.ply')),
    );
    expect(scans[1].mesh).toEqual(scans[0].mesh);
    expect(scans[2].mesh).toEqual(scans[0].mesh);
    expect(largestDifference(scans[0].mesh.triangles, shape.triangles)).toBe(0);
  });

  it.each(['char', 'uchar', 'short', 'ushort', 'int', 'uint', 'float', 'double'] as const)(
    'reads coordinates, list lengths and corners of type %s, in any order and among other properties',
    async (type) => {
      const out = new PlyBytes(false);
      for (const [x, y, z] of square)
        out.add('uchar', 2).add('short', 7, 8).add(type, z, x).add('double', 9).add(type, y);
      out.add('int', 1).add('float', 5).add(type, 4, 0, 1, 2, 3).add('uchar', 1).add('double', 6);
      const bytes = out.behind([
        'ply',
        'format binary_big_endian 1.0',
        'comment element vertex 9',
        'element vertex 4',
        'property list uchar short neighbours',
        `property ${type} z`,
        `property ${type} x`,
        'property double quality',
        `property ${type} y`,
        'element patch 1',
        'property list int float numbers',
        'element face 1',
        `property list ${type} ${type} vertex_index`,
        'property list uchar double texcoord',
      ]);
      const scan = await readScan(bytes, 'a.ply');
      expect([...cornersInFile(scan.mesh)]).toEqual([0, 1, 2, 0, 2, 3].flatMap((i) => square[i]));
    },
  );

  it('takes faces before vertices, and more on a line of text than the header says', async () => {
    const bytes = bytesOf(
      `ply\nformat ascii 1.0\nelement face 2\nproperty list uchar int vertex_indices\nelement vertex 4\nproperty float x\nproperty float y\nproperty float z\nend_header\n3 0 1 2 99 98\n3 0 2 3\n${square.map((p) => `${p.join(' ')} 255 255`).join('\n')}\n`,
    );
    expect([...(await readScan(bytes, 'a.ply')).mesh.triangles]).toEqual([0, 1, 2, 0, 2, 3]);
  });

  it('unrolls strips, every other triangle turned, begun again at −1', async () => {
    const header = [
      'ply',
      'format binary_little_endian 1.0',
      'element vertex 8',
      'property float x',
      'property float y',
      'property float z',
      'element tristrips 1',
      'property list int int vertex_indices',
    ];
    const points = [0, 1, 2, 3].flatMap((x) => [x, 0, 0, x, 1, 0]);
    const bytes = new PlyBytes(true)
      .add('float', ...points)
      .add('int', 9, 0, 2, 1, 3, -1, 4, 6, 5, 7)
      .behind(header);
    const { mesh, repairs } = await readScan(bytes, 'a.ply');
    expect([...mesh.triangles]).toEqual([0, 2, 1, 1, 2, 3, 4, 6, 5, 5, 6, 7]);
    expect(repairs.flipped).toBe(0);
  });

  it('makes triangles of a range grid, none across a jump, facing the scanner', async () => {
    const random = seededRandom(5);
    const points: string[] = [];
    const grid: string[] = [];
    for (let row = 0; row < 12; row++)
      for (let column = 0; column < 10; column++) {
        // A step of 20 between columns 4 and 5; one place was not seen.
        const seen = row !== 6 || column !== 2;
        if (seen) points.push(`${column} ${row} ${(column < 5 ? 0 : 20) + random.between(0, 0.2)}`);
        grid.push(seen ? `1 ${points.length - 1}` : '0');
      }
    const header = `ply\nformat ascii 1.0\nobj_info num_cols 10\nobj_info num_rows 12\nelement vertex ${points.length}\nproperty float x\nproperty float y\nproperty float z\nelement range_grid 120\nproperty list uchar int vertex_indices\nend_header\n`;
    const { mesh, vertices } = await readScan(bytesOf(`${header}${points.join('\n')}\n${grid.join('\n')}\n`), 'a.ply');
    expect(vertices).toBe(119);
    // 11 rows × (4 + 4) squares, less four squares at the gap, each of which still has one triangle.
    expect(mesh.triangles.length / 3).toBe(2 * 11 * 8 - 4);
    for (let i = 0; i < mesh.triangles.length; i += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => [
        ...mesh.positions.subarray(mesh.triangles[i + k] * 3, mesh.triangles[i + k] * 3 + 2),
      ]);
      expect((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])).toBeGreaterThan(0);
    }
  });

  it('agrees with an independent reader (three.js PLYLoader)', async () => {
    const shape = shuffled(ball(8), 11);
    for (const bytes of [textPly(shape), writePly(Float32Array.from(shape.positions), shape.triangles)]) {
      const geometry = new PLYLoader().parse(bytes.slice().buffer);
      const { mesh } = await readScan(bytes, 'a.ply');
      expect(largestDifference(mesh.triangles, geometry.getIndex()?.array ?? [])).toBe(0);
      const places = mesh.positions.map((value, i) => value + mesh.offset[i % 3]);
      expect(largestDifference(places, geometry.getAttribute('position').array)).toBeLessThan(2e-6);
    }
  });

  it('keeps 10⁻⁶ of resolution for a scan half a kilometre away', async () => {
    const shape = ball(6);
    const far = moved(shape, 5e5, -3e5, 8e5);
    const near = await readScan(textPly(shape), 'near.ply');
    const away = await readScan(textPly(far), 'far.ply');
    expect(
      largestDifference(
        cornersInFile(away.mesh),
        cornersInFile(near.mesh).map((value, i) => value + [5e5, -3e5, 8e5][i % 3]),
      ),
    ).toBeLessThan(1e-6);
  });
});
