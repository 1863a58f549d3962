import { zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { readScan } from '../../src/core/scan/index.ts';
import { bytesOf } from './shapes.ts';

interface Axis {
  readonly type?: 'I' | 'L' | 'F' | 'D';
  readonly axis?: 'I' | 'A';
  readonly increment?: number;
  readonly offset?: number;
}

interface Container {
  readonly columns: number;
  readonly rows: number;
  readonly layers?: number;
  readonly x?: Axis;
  readonly y?: Axis;
  readonly z?: Axis;
  readonly data?: ArrayBufferView;
  readonly list?: readonly string[];
  readonly valid?: Uint8Array;
  readonly feature?: string;
  /** Folder in the zip, and what else lies there. */
  readonly folder?: string;
  readonly junk?: Record<string, Uint8Array>;
  readonly root?: string;
}

function x3p(container: Container): Uint8Array {
  const {
    columns,
    rows,
    layers = 1,
    data,
    list,
    valid,
    feature = 'SUR',
    folder = '',
    root = 'p:ISO5436_2',
  } = container;
  const axis = (name: string, { type = 'D', axis = 'I', increment = 1, offset = 0 }: Axis = {}) =>
    `<${name}><AxisType>${axis}</AxisType><DataType>${type}</DataType><Increment>${increment}</Increment><Offset>${offset}</Offset></${name}>`;
  const points = list
    ? `<DataList>${list.map((entry) => (entry === '' ? '<Datum/>' : `<Datum>${entry}</Datum>`)).join('')}</DataList>`
    : `<DataLink><PointDataLink>bindata/data.bin</PointDataLink>${valid ? '<ValidPointsLink>bindata/valid.bin</ValidPointsLink>' : ''}</DataLink>`;
  const xml = `<?xml version="1.0" encoding="UTF-8"?>
    <${root} xmlns:p="http://www.opengps.eu/2008/ISO5436_2"><Record1><FeatureType>${feature}</FeatureType>
    <Axes>${axis('CX', container.x)}${axis('CY', container.y)}${axis('CZ', { axis: 'A', ...container.z })}</Axes></Record1>
    <Record3><MatrixDimension><SizeX>${columns}</SizeX><SizeY>${rows}</SizeY><SizeZ>${layers}</SizeZ></MatrixDimension>${points}</Record3></${root}>`;
  const files: Record<string, Uint8Array> = { ...container.junk, [`${folder}main.xml`]: bytesOf(xml) };
  if (data) files[`${folder}bindata/data.bin`] = new Uint8Array(data.buffer, data.byteOffset, data.byteLength);
  if (valid) files[`${folder}bindata/valid.bin`] = valid;
  return zipSync(files);
}

/** Places of all vertices in the file's metres, x y z after one another. */
async function places(container: Container): Promise<number[]> {
  const { mesh } = await readScan(x3p(container), 'a.x3p');
  return [...mesh.positions].map((value, i) => value + mesh.offset[i % 3]);
}

const heightsOf = async (container: Container) => (await places(container)).filter((_, i) => i % 3 === 2);

describe('X3P', () => {
  it('raw −10, increment 0.5, offset 100 gives 95 (ISO 25178-72)', async () => {
    const z: Axis = { type: 'I', increment: 0.5, offset: 100 };
    expect(await heightsOf({ columns: 2, rows: 2, z, data: Int16Array.from([-10, 0, 2, 4]) })).toEqual([
      95, 100, 101, 102,
    ]);
  });

  it('mask bytes 0x95 0xFD show points 1 0 1 0 1 0 0 1 1 0 …, least significant bit first (ISO 25178-72)', async () => {
    const data = Float64Array.from({ length: 16 }, (_, i) => i);
    const shown = await heightsOf({ columns: 4, rows: 4, data, valid: Uint8Array.from([0x95, 0xfd]) });
    expect(shown).toEqual([0, 2, 4, 7, 8, 10, 11, 12, 13, 14, 15]);
  });

  it('a set bit never brings back a value that is not a number', async () => {
    const data = Float64Array.from([0, 1, Number.NaN, 3, Number.POSITIVE_INFINITY, 5, 6, 7, 8]);
    const shown = await heightsOf({ columns: 3, rows: 3, data, valid: Uint8Array.from([0xff, 0xff]) });
    expect(shown).toEqual([0, 1, 3, 5, 6, 7, 8]);
  });

  it.each([
    ['I', Int16Array, 0.25],
    ['L', Int32Array, 0.25],
    ['F', Float32Array, 1],
    ['D', Float64Array, 1],
  ] as const)('reads heights of type %s; increments scale whole numbers only', async (type, Type, factor) => {
    const data = Type.from([-8, 4, 12, 20]);
    expect(await heightsOf({ columns: 2, rows: 2, z: { type, increment: 0.25 }, data })).toEqual(
      [-8, 4, 12, 20].map((value) => value * factor),
    );
  });

  it('goes right along x and up along y, with a pitch and offset each, and faces +z', async () => {
    const container: Container = {
      columns: 3,
      rows: 2,
      x: { increment: 2, offset: 10 },
      y: { increment: 0.5, offset: -1 },
      data: new Float64Array(6),
    };
    expect(await places(container)).toEqual([10, -1, 0, 12, -1, 0, 14, -1, 0, 10, -0.5, 0, 12, -0.5, 0, 14, -0.5, 0]);
    for (const increment of [0.5, -0.5])
      for (const across of [2, -2]) {
        const { mesh } = await readScan(x3p({ ...container, x: { increment: across }, y: { increment } }), 'a.x3p');
        const [a, b, c] = [...mesh.triangles].map((v) => [mesh.positions[v * 3], mesh.positions[v * 3 + 1]]);
        expect((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])).toBeGreaterThan(0);
      }
  });

  it('makes one triangle where three of four points are there', async () => {
    for (let missing = 0; missing < 4; missing++) {
      const data = Float64Array.from({ length: 4 }, (_, i) => (i === missing ? Number.NaN : i));
      expect((await readScan(x3p({ columns: 2, rows: 2, data }), 'a.x3p')).triangles).toBe(1);
    }
  });

  it('reads an absolute axis from the points, from a list and from a file', async () => {
    const y: Axis = { axis: 'A', type: 'I', increment: 2, offset: 1 };
    const list = ['1;5', '1;6', '2;7', '', '3;9', '3;10'];
    const expected = [0, 3, 5, 1, 3, 6, 0, 5, 7, 0, 7, 9, 1, 7, 10];
    expect(await places({ columns: 2, rows: 3, y, list })).toEqual(expected);
    const records = new Uint8Array(6 * 10);
    const view = new DataView(records.buffer);
    list.forEach((entry, i) => {
      const [row, height] = entry === '' ? [0, Number.NaN] : entry.split(';').map(Number);
      view.setInt16(i * 10, row, true);
      view.setFloat64(i * 10 + 2, height, true);
    });
    expect(await places({ columns: 2, rows: 3, y, data: records })).toEqual(expected);
  });

  it('is found in a sub-folder among litter, with a root of any name', async () => {
    const data = new Float64Array(4);
    const junk = {
      '__MACOSX/scan/._main.xml': bytesOf('x'),
      'scan/.DS_Store': bytesOf('x'),
      'scan/bindata/mask.png': bytesOf('x'),
    };
    const scan = await readScan(x3p({ columns: 2, rows: 2, data, folder: 'scan/', junk, root: 'ISO5436' }), 'scan.zip');
    expect(scan).toMatchObject({ format: 'x3p', unitInFile: 'm', unitTrusted: true, triangles: 2 });
  });

  it.each<[string, Container, string]>([
    ['a profile', { columns: 2, rows: 2, feature: 'PRF', data: new Float64Array(4) }, 'noTriangles'],
    ['a point cloud', { columns: 2, rows: 2, feature: 'PCL', data: new Float64Array(4) }, 'noTriangles'],
    ['several layers', { columns: 2, rows: 2, layers: 2, data: new Float64Array(8) }, 'unsupported'],
    ['too few points', { columns: 9, rows: 9, data: new Float64Array(4) }, 'truncated'],
    ['a short list', { columns: 9, rows: 9, list: ['1', '2'] }, 'truncated'],
    ['a short mask', { columns: 9, rows: 9, data: new Float64Array(81), valid: new Uint8Array(2) }, 'truncated'],
    ['no points at all', { columns: 2, rows: 2 }, 'truncated'],
    ['an increment of zero', { columns: 2, rows: 2, x: { increment: 0 }, data: new Float64Array(4) }, 'malformed'],
    ['a huge size', { columns: 60_000_000, rows: 60_000_000, data: new Float64Array(4) }, 'tooLarge'],
    ['a size of zero', { columns: 0, rows: 2, data: new Float64Array(4) }, 'malformed'],
  ])('refuses %s', async (_, container, code) => {
    await expect(readScan(x3p(container), 'a.x3p')).rejects.toMatchObject({ name: 'ScanError', code });
  });
});
