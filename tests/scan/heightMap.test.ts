import { encode } from 'fast-png';
import { zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { readScan } from '../../src/core/scan/index.ts';

const scale = { pixelSize: 0.5, heightStep: 0.01 };

function png(width: number, height: number, data: Uint16Array | Uint8Array, channels: 1 | 2 | 3 = 1): Uint8Array {
  return encode({ width, height, data, channels, depth: data instanceof Uint8Array ? 8 : 16 });
}

/** A TIFF of one uncompressed strip. `tags` adds to or replaces the fields: [tag, type, count, value]. */
function tiff(width: number, height: number, values: Float32Array | Uint16Array, little = true, text = ''): Uint8Array {
  const bits = values.BYTES_PER_ELEMENT * 8;
  const fields = [
    [256, 4, 1, width],
    [257, 4, 1, height],
    [258, 3, 1, bits],
    [259, 3, 1, 1],
    [262, 3, 1, 1],
    [273, 4, 1, 0],
    [277, 3, 1, 1],
    [278, 4, 1, height],
    [279, 4, 1, values.byteLength],
    [339, 3, 1, values instanceof Float32Array ? 3 : 1],
    ...(text ? [[42113, 2, text.length + 1, 0]] : []),
  ];
  const textAt = 8 + 2 + fields.length * 12 + 4;
  const dataAt = textAt + Math.ceil((text.length + 1) / 8) * 8;
  const view = new DataView(new ArrayBuffer(dataAt + values.byteLength));
  view.setUint16(0, little ? 0x4949 : 0x4d4d);
  view.setUint16(2, 42, little);
  view.setUint32(4, 8, little);
  view.setUint16(8, fields.length, little);
  fields.forEach(([tag, type, count, value], i) => {
    const at = 10 + i * 12;
    view.setUint16(at, tag, little);
    view.setUint16(at + 2, type, little);
    view.setUint32(at + 4, count, little);
    const stored = tag === 273 ? dataAt : tag === 42113 ? textAt : value;
    if (type === 3) view.setUint16(at + 8, stored, little);
    else view.setUint32(at + 8, stored, little);
  });
  for (let i = 0; i < text.length; i++) view.setUint8(textAt + i, text.charCodeAt(i));
  values.forEach((value, i) => {
    if (values instanceof Float32Array) view.setFloat32(dataAt + i * 4, value, little);
    else view.setUint16(dataAt + i * 2, value, little);
  });
  return new Uint8Array(view.buffer);
}

async function places(bytes: Uint8Array, name: string): Promise<number[][]> {
  const { mesh } = await readScan(bytes, name, scale);
  const out: number[][] = [];
  for (let i = 0; i < mesh.positions.length; i += 3)
    out.push([0, 1, 2].map((axis) => Number((mesh.positions[i + axis] + mesh.offset[axis]).toFixed(3))));
  return out;
}

describe('height maps', () => {
  it('go right along the row and up the picture, pixel size and height step applied', async () => {
    const bytes = png(3, 2, Uint16Array.from([0, 100, 65_535, 1, 2, 3]));
    expect(await places(bytes, 'a.png')).toEqual([
      [0, 0, 0],
      [0.5, 0, 1],
      [1, 0, 655.35],
      [0, -0.5, 0.01],
      [0.5, -0.5, 0.02],
      [1, -0.5, 0.03],
    ]);
  });

  it('face +z', async () => {
    const { mesh } = await readScan(png(4, 4, new Uint16Array(16)), 'a.png', scale);
    for (let i = 0; i < mesh.triangles.length; i += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => [
        mesh.positions[mesh.triangles[i + k] * 3],
        mesh.positions[mesh.triangles[i + k] * 3 + 1],
      ]);
      expect((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])).toBeGreaterThan(0);
    }
  });

  it('are the same as PNG, as float TIFF and as 16-bit TIFF of either byte order', async () => {
    const values = Uint16Array.from({ length: 30 }, (_, i) => (i * 7919) % 1000);
    const expected = await places(png(6, 5, values), 'a.png');
    for (const bytes of [
      tiff(6, 5, values),
      tiff(6, 5, values, false),
      tiff(6, 5, Float32Array.from(values)),
      tiff(6, 5, Float32Array.from(values), false),
    ])
      expect(await places(bytes, 'a.tif')).toEqual(expected);
  });

  it('leave out transparent pixels, NaN, the stated "no data" value and the largest float', async () => {
    const grey = Uint16Array.from([1, 65_535, 2, 65_535, 3, 0, 4, 65_535]);
    expect((await places(png(2, 2, grey, 2), 'a.png')).length).toBe(3);
    const floats = Float32Array.from([1, 2, 3, Number.NaN, -9999, 4, -3.4028234663852886e38, 5, 6]);
    expect((await places(tiff(3, 3, floats, true, '-9999'), 'a.tif')).length).toBe(6);
  });

  it('carry the unit in which their scale was stated', async () => {
    const bytes = png(3, 3, new Uint16Array(9));
    expect(await readScan(bytes, 'a.png', { ...scale, unit: 'cm' })).toMatchObject({
      unitInFile: 'cm',
      unitTrusted: true,
    });
    expect(await readScan(bytes, 'a.png', scale)).toMatchObject({ unitInFile: 'mm', format: 'png' });
  });

  it('can come zipped', async () => {
    const zipped = zipSync({ 'seal/height.png': png(3, 3, new Uint16Array(9)) });
    expect((await readScan(zipped, 'seal.zip', scale)).triangles).toBe(8);
  });

  it.each([
    ['without a scale', png(3, 3, new Uint16Array(9)), {}, 'unitNeeded'],
    ['with half a scale', png(3, 3, new Uint16Array(9)), { pixelSize: 1 }, 'unitNeeded'],
    ['of 8 bits', png(3, 3, new Uint8Array(9)), scale, 'unsupported'],
    ['in colours', png(3, 3, new Uint16Array(27), 3), scale, 'unsupported'],
    ['of one pixel', png(1, 1, new Uint16Array(1)), scale, 'noTriangles'],
  ])('%s are refused', async (_, bytes, options, code) => {
    await expect(readScan(bytes, 'a.png', options)).rejects.toMatchObject({ name: 'ScanError', code });
  });

  it('that claim to be huge are refused before memory is asked for', async () => {
    const bytes = png(3, 3, new Uint16Array(9));
    new DataView(bytes.buffer).setUint32(16, 0x7fffffff);
    await expect(readScan(bytes, 'a.png', scale)).rejects.toMatchObject({ name: 'ScanError' });
    const wide = tiff(3, 3, new Float32Array(9));
    new DataView(wide.buffer).setUint32(18, 0x7fffffff, true);
    await expect(readScan(wide, 'a.tif', scale)).rejects.toMatchObject({ name: 'ScanError' });
  });
});
