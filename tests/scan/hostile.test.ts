import { encode } from 'fast-png';
import { strToU8, zipSync, zlibSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import {
  type RawScan,
  readScan,
  refusedByLength,
  ScanError,
  type ScanErrorCode,
  sideFilesOf,
} from '../../src/core/scan/index.ts';
import { needing, realData, realFiles } from '../realData.ts';
import { asUtf16, makeGlb, makePng, makeX3p, meshBuffer, meshDocument, pngParts } from './makers.ts';
import { ball, bumpySheet, bytesOf, textObj, textPly, textStl } from './shapes.ts';
import { makeTiff } from './tiffMaker.ts';

const stated = { pixelSize: 0.06, heightStep: 0.001, sha256: () => '' };

const outcome = (bytes: Uint8Array, name: string, files = {}): Promise<RawScan | ScanError> =>
  readScan(bytes, name, { ...stated, files }).catch((error: unknown) => {
    if (error instanceof ScanError) return error;
    throw error;
  });

/** The refusal, one printable sentence; fails where the file was read. */
async function refusal(bytes: Uint8Array, name: string): Promise<ScanErrorCode> {
  const result = await outcome(bytes, name);
  expect(result).toBeInstanceOf(ScanError);
  if (!(result instanceof ScanError)) return 'damaged';
  expect(result.message).toMatch(/^[^\p{Cc}]{20,300}\.$/u);
  return result.code;
}

/** Files that break readers, and how each is met: the code of its refusal, or "read". */
const expected: Readonly<Record<string, ScanErrorCode | 'read'>> = {
  'assetnull.glb': 'unsupported',
  'badesc.gltf': 'malformed',
  'badjson.glb': 'malformed',
  'badjson.ply': 'truncated',
  'etc.gltf': 'malformed',
  'f32-bigtiff.tif': 'read',
  'f32-minisblack.tif': 'read',
  'f32-miniswhite.tif': 'read',
  'fuzz-3620.ply': 'malformed',
  'fuzz-7482.tif': 'noTriangles',
  // Sixteen corners that make a surface, if no seal.
  'fuzz-8191.obj': 'read',
  'gltf-dag.glb': 'malformed',
  'gltf-deep.gltf': 'noTriangles',
  'gltf-stride1.glb': 'malformed',
  'i16-signed.tif': 'read',
  'i32.tif': 'read',
  'long.gltf': 'malformed',
  'noasset.glb': 'unsupported',
  'nul.gltf': 'malformed',
  'nulljson.glb': 'malformed',
  'obj-index-wraps.obj': 'malformed',
  'ply-1e12.ply': 'truncated',
  'ply-list-2e9.ply': 'truncated',
  // The profile in it is never unpacked: the picture beside it is sound.
  'png_iccp_bomb_1g.png': 'read',
  'png_idat_bomb_1g.png': 'malformed',
  'project-forged-finding.glb': 'read',
  'project-scans-null.glb': 'read',
  'project-view-camera-null.glb': 'read',
  'stl-lies.stl': 'truncated',
  'terminal-escape.ply': 'malformed',
  'tiff-ifd-loop.tif': 'malformed',
  'tiff-no-page.tif': 'noTriangles',
  'u16-minisblack.tif': 'read',
  'u16-miniswhite.tif': 'read',
  'x3p_xml_elements_100M.x3p': 'tooLarge',
};

const hostile = realFiles('hostile').filter((path) => !path.endsWith('.md'));

describe.skipIf(hostile.length === 0)(needing('hostile', 'files that break readers'), () => {
  it('are all named here', () =>
    expect(hostile.map((path) => path.slice('hostile/'.length))).toEqual(Object.keys(expected).sort()));

  it.each(hostile)('%s', async (path) => {
    const bytes = realData(path) ?? new Uint8Array(0);
    const before = process.memoryUsage().rss;
    const wanted = expected[path.slice('hostile/'.length)];
    if (wanted === 'read') expect(await outcome(bytes, path)).toHaveProperty('triangles');
    else expect(await refusal(bytes, path)).toBe(wanted);
    expect(process.memoryUsage().rss - before).toBeLessThan(6e8);
  });

  it.each([
    ['u16-miniswhite', 'u16-minisblack'],
    ['f32-miniswhite', 'f32-minisblack'],
    ['f32-bigtiff', 'f32-minisblack'],
  ])('%s.tif has the heights of %s.tif', async (one, other) => {
    const [a, b] = await Promise.all(
      [one, other].map((name) => outcome(realData(`hostile/${name}.tif`) ?? new Uint8Array(0), name)),
    );
    expect((a as RawScan).mesh).toEqual((b as RawScan).mesh);
  });

  it.each(['i16-signed', 'i32'])('%s.tif has heights on both sides of zero', async (name) => {
    const { mesh } = (await outcome(realData(`hostile/${name}.tif`) ?? new Uint8Array(0), name)) as RawScan;
    const z = mesh.positions.filter((_, i) => i % 3 === 2).map((value) => value + mesh.offset[2]);
    expect(Math.min(...z)).toBeLessThan(0);
    expect(Math.max(...z)).toBeGreaterThan(0);
  });
});

const sheet = bumpySheet(4, 4);
const buffer = meshBuffer(sheet.positions, sheet.triangles);
const document = meshDocument(16, sheet.triangles.length);
const named = (uri: string) => bytesOf(JSON.stringify(meshDocument(16, sheet.triangles.length, uri)));

describe('bombs are refused before they are unpacked', () => {
  const grey = encode({ width: 4, height: 4, depth: 16, channels: 1, data: new Uint16Array(16) });
  const long = zlibSync(new Uint8Array(64 * 2 ** 20));

  it('a PNG whose packed rows go on behind its last one', async () => {
    const parts = pngParts(grey).map((part) => (part.type === 'IDAT' ? { ...part, data: long } : part));
    expect(await refusal(makePng(parts), 'a.png')).toBe('malformed');
  });

  it('a PNG with a colour profile: the profile is left where it is', async () => {
    const [header, ...rest] = pngParts(grey);
    const profile = Uint8Array.from([97, 0, 0, ...long.subarray(0, 65_000)]);
    const bytes = makePng([header, { type: 'iCCP', data: profile }, ...rest]);
    expect(await outcome(bytes, 'a.png')).toMatchObject({ triangles: 18 });
  });

  it('a small PNG and a small TIFF of millions of equal pixels', async () => {
    const data = new Uint16Array(5000 * 5000);
    const flat = encode({ width: 5000, height: 5000, depth: 16, channels: 1, data });
    expect(flat.length).toBeLessThan(200_000);
    expect(await refusal(flat, 'a.png')).toBe('tooLarge');
    const tiff = { width: 4, height: 4, values: new Float64Array(16), sample: '3/32', compression: 8 } as const;
    const wide = makeTiff({
      ...tiff,
      rows: 4,
      fields: [
        [256, 4000],
        [257, 4000],
        [278, 4000],
      ],
    });
    expect(await refusal(wide, 'a.tif')).toBe('tooLarge');
  });

  it('an X3P whose description is a sea of elements, before, in and behind its points', async () => {
    const sea = '<a/>'.repeat(2e6);
    const xml = (before: string, inside: string, behind: string) =>
      strToU8(
        `<x><Record1><FeatureType>SUR</FeatureType><Axes>${before}</Axes></Record1><Record3><DataList>${inside}</DataList>${behind}</Record3></x>`,
      );
    for (const main of [xml(sea, '', ''), xml('', '', sea), xml('', '', `${' '.repeat(2 ** 21)}`)])
      expect(await refusal(zipSync({ 'main.xml': main }), 'a.x3p')).toBe('tooLarge');
    expect(await refusal(zipSync({ 'main.xml': xml('', sea, '') }), 'a.x3p')).toBe('malformed');
  });

  it('a zip of nothing but zeros', async () =>
    expect(await refusal(zipSync({ 'a.stl': new Uint8Array(3e8) }, { level: 9 }), 'a.zip')).toBe('tooLarge'));

  it('a zip whose directory claims thousands of millions of entries', async () => {
    const zip = zipSync({ 'a.stl': new Uint8Array(100) }, { level: 0 });
    const end = zip.length - 22;
    // The end record says "see the larger one before me", and that one (zip64) claims the most that 32 bits can.
    const out = new Uint8Array(zip.length + 76);
    out.set(zip.subarray(0, end));
    const view = new DataView(out.buffer);
    view.setUint32(end, 0x06064b50, true);
    view.setUint32(end + 32, 0xffffffff, true);
    view.setUint32(end + 56, 0x07064b50, true);
    view.setUint32(end + 64, end, true);
    out.set(zip.subarray(end), end + 76);
    view.setUint16(end + 76 + 8, 0xffff, true);
    view.setUint16(end + 76 + 10, 0xffff, true);
    view.setUint32(end + 76 + 16, 0xffffffff, true);
    expect(await refusal(out, 'a.zip')).toBe('truncated');
  });

  it('a zip whose file unpacks to more, or less, than its directory says', async () => {
    const zip = zipSync({ 'a.obj': textObj(sheet) });
    const directory = zip.length - 22 - 46 - 'a.obj'.length;
    const size = new DataView(zip.buffer).getUint32(directory + 24, true);
    expect(await outcome(zip, 'a.zip')).toHaveProperty('triangles', 18);
    for (const claimed of [10, size - 1, size + 1, 0]) {
      new DataView(zip.buffer).setUint32(directory + 24, claimed, true);
      expect(await refusal(zip, 'a.zip')).toBe('truncated');
    }
  });

  it('a glTF whose points overlap, whose primitives repeat, or whose JSON is a list of millions', async () => {
    const overlapping = structuredClone(document);
    overlapping.bufferViews[0].byteStride = 1;
    expect(await refusal(makeGlb(overlapping, buffer), 'a.glb')).toBe('malformed');
    overlapping.bufferViews[0].byteStride = 8;
    expect(await refusal(makeGlb(overlapping, buffer), 'a.glb')).toBe('malformed');
    const big = meshBuffer(new Float64Array(48), new Uint32Array(300_000));
    const repeated = meshDocument(16, 300_000);
    repeated.meshes[0].primitives = Array.from({ length: 3000 }, () => repeated.meshes[0].primitives[0]);
    expect(await refusal(makeGlb(repeated, big), 'a.glb')).toBe('tooLarge');
    expect(await refusal(bytesOf(`{"asset":{"version":"2.0"},"x":[${'0,'.repeat(3e6)}0]}`), 'a.gltf')).toBe('tooLarge');
  });

  it('a .gltf longer than the longest text there is', async () => {
    // Zeros take no memory until they are looked at; the beginning says what it is.
    const bytes = new Uint8Array(600_000_000);
    bytes.set(bytesOf('{"asset":'));
    expect(await refusal(bytes, 'a.gltf')).toBe('tooLarge');
    // Known by its length, so that nobody need read it first; a GLB of that length has its buffers beside its text.
    expect(refusedByLength('a.GLTF', bytes.length)?.code).toBe('tooLarge');
    expect([refusedByLength('a.glb', bytes.length), refusedByLength('a.gltf', 2e8)]).toEqual([undefined, undefined]);
  });
});

describe('names of side files', () => {
  it.each([
    ['%zz.bin'],
    ['a%00.bin'],
    ['..%2f..%2fetc%2fpasswd'],
    ['../a.bin'],
    ['buffers/../../a.bin'],
    ['/etc/passwd'],
    ['%2Fetc/passwd'],
    ['..%5ca.bin'],
    ['c:%5ca.bin'],
    ['file:///etc/passwd'],
    ['C:/a.bin'],
    ['.'],
    ['..'],
    [''],
    ['%252e%252e/..'],
    ['a'.repeat(300)],
    ['a/'.repeat(20)],
  ])('%j is refused', async (uri) => {
    expect(() => sideFilesOf(named(uri))).toThrow(ScanError);
    expect(await refusal(named(uri), 'a.gltf')).toBe('malformed');
  });

  it.each([
    ['a%20b.bin', 'a b.bin'],
    ['./scan.bin', 'scan.bin'],
    ['buffers/scan.bin', 'buffers/scan.bin'],
    ['100%25.bin', '100%.bin'],
    ['..a.bin', '..a.bin'],
    ['siégel.bin', 'siégel.bin'],
  ])('%j is the file %j beside it', async (uri, name) => {
    expect(sideFilesOf(named(uri))).toEqual([name]);
    expect(await outcome(named(uri), 'a.gltf', { [name]: buffer })).toMatchObject({ triangles: 18 });
    expect(await refusal(named(uri), 'a.gltf')).toBe('fileMissing');
  });
});

describe('numbers that come round', () => {
  it.each(['4294967295', '4294967296', '4294967297', '18446744073709551617', '1e0'])(
    'corner %s of an OBJ',
    async (corner) => {
      const text = `v 0 0 0\nv 1 0 0\nv 0 1 0\nv 1 1 0.5\nf ${corner} 2 3\nf 2 4 3\n`;
      expect(await refusal(bytesOf(text), 'a.obj')).toBe('malformed');
    },
  );

  it.each(['4294967297', '-1', '1e10'])('corner %s of a text PLY', async (corner) => {
    const text = new TextDecoder().decode(textPly(sheet)).replace(/\n3 \d+ (\d+ \d+)\n/, `\n3 ${corner} $1\n`);
    expect(await refusal(bytesOf(text), 'a.ply')).toBe('malformed');
  });
});

describe('text with two bytes a letter', () => {
  const shape = ball(3);
  it.each([
    ['a.ply', textPly(shape)],
    ['a.stl', textStl(shape)],
    ['a.obj', textObj(shape)],
    ['a.gltf', named(`data:application/octet-stream;base64,${Buffer.from(buffer).toString('base64')}`)],
  ])('%s, of either order, with its mark or without', async (name, bytes) => {
    const text = new TextDecoder().decode(bytes);
    const plain = (await outcome(bytes, name)) as RawScan;
    for (const little of [true, false])
      for (const mark of [true, false])
        expect(((await outcome(asUtf16(text, little, mark), name)) as RawScan).mesh).toEqual(plain.mesh);
  });

  it('the description of an X3P', async () => {
    const xml = '<x>é𐌰</x>';
    expect(await refusal(zipSync({ 'main.xml': asUtf16(xml) }), 'a.x3p')).toBe('malformed');
  });
});

describe('a file that only says what it is', () => {
  it('a scan that says it was computed is known inside a zip as well', async () => {
    const text = new TextDecoder().decode(textPly(sheet)).replace('\nelement', '\ncomment simulated: a test\nelement');
    expect(await outcome(zipSync({ 'a.ply': strToU8(text) }), 'a.zip')).toMatchObject({ simulated: true });
  });

  it('an X3P with a list and one with a binary file are the same surface', async () => {
    const z = Float64Array.from({ length: 12 }, (_, i) => (i === 5 ? Number.NaN : i % 5));
    const [list, binary] = await Promise.all([true, false].map((inline) => outcome(makeX3p(4, 3, z, inline), 'a.x3p')));
    expect((list as RawScan).mesh).toEqual((binary as RawScan).mesh);
  });
});
