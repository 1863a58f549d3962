import { encode } from 'fast-png';
import { zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { readScan, ScanError, writePly } from '../../src/core/scan/index.ts';
import { ball, binaryStl, bytesOf, textObj, textPly, textStl } from './shapes.ts';

const scale = { pixelSize: 1, heightStep: 1 };
const shape = ball(4);
const samples: Record<string, Uint8Array> = {
  'binary.ply': writePly(Float32Array.from(shape.positions), shape.triangles),
  'text.ply': textPly(shape),
  'binary.stl': binaryStl(shape),
  'text.stl': textStl(shape),
  'mesh.obj': textObj(shape),
  'height.png': encode({
    width: 40,
    height: 30,
    depth: 16,
    channels: 1,
    data: Uint16Array.from({ length: 1200 }, (_, i) => (i * 7919) % 65_536),
  }),
  'mesh.glb': glb(),
  'zipped.zip': zipSync({ 'mesh.stl': binaryStl(shape) }),
};

function glb(): Uint8Array {
  const positions = new Uint8Array(Float32Array.from(shape.positions).buffer);
  const corners = new Uint8Array(shape.triangles.slice().buffer);
  const json = JSON.stringify({
    asset: { version: '2.0' },
    scenes: [{ nodes: [0] }],
    nodes: [{ mesh: 0 }],
    meshes: [{ primitives: [{ attributes: { POSITION: 0 }, indices: 1 }] }],
    accessors: [
      { bufferView: 0, componentType: 5126, count: shape.positions.length / 3, type: 'VEC3' },
      { bufferView: 1, componentType: 5125, count: shape.triangles.length, type: 'SCALAR' },
    ],
    bufferViews: [
      { buffer: 0, byteLength: positions.length },
      { buffer: 0, byteOffset: positions.length, byteLength: corners.length },
    ],
    buffers: [{ byteLength: positions.length + corners.length }],
  });
  const text = bytesOf(json.padEnd(Math.ceil(json.length / 4) * 4));
  const out = new Uint8Array(28 + text.length + positions.length + corners.length);
  const words = [0x46546c67, 2, out.length, text.length, 0x4e4f534a];
  for (const [i, word] of words.entries()) new DataView(out.buffer).setUint32(i * 4, word, true);
  out.set(text, 20);
  new DataView(out.buffer).setUint32(20 + text.length, positions.length + corners.length, true);
  new DataView(out.buffer).setUint32(24 + text.length, 0x004e4942, true);
  out.set(positions, 28 + text.length);
  out.set(corners, 28 + text.length + positions.length);
  return out;
}

/** Undefined where the file was read; the refusal otherwise. Anything else thrown fails the test. */
async function refusal(bytes: Uint8Array, name: string): Promise<ScanError | undefined> {
  try {
    const { mesh } = await readScan(bytes, name, { ...scale, sha256: () => '' });
    expect(mesh.positions.every(Number.isFinite)).toBe(true);
    return undefined;
  } catch (error) {
    if (!(error instanceof ScanError)) throw error;
    return error;
  }
}

function expectOneSentence(error: ScanError, name: string): void {
  expect(error.message.startsWith(`${name}: `)).toBe(true);
  expect(error.message.endsWith('.')).toBe(true);
  expect(error.message).not.toMatch(/\n|undefined|NaN|\[object/);
  expect(error.message.length).toBeLessThan(240);
}

describe.each(Object.keys(samples))('%s', (name) => {
  const bytes = samples[name];

  it('is read as it is', async () => expect(await refusal(bytes, name)).toBeUndefined());

  it('is refused where it is cut short', async () => {
    for (let i = 0; i < 60; i++) {
      // The last cut takes a single byte: in text that may be no more than the line end.
      const length = i < 59 ? Math.floor((i * bytes.length) / 60) : bytes.length - (name.startsWith('text') ? 8 : 1);
      const error = await refusal(bytes.slice(0, length), name);
      // OBJ has no end mark: cut behind any line it is a smaller, sound file.
      if (error === undefined && name.endsWith('.obj')) continue;
      expect(error, `cut to ${length} of ${bytes.length} bytes`).toBeInstanceOf(ScanError);
      if (error) expectOneSentence(error, name);
    }
  });

  it('is read or refused, never worse, with bytes changed, lost or doubled', async () => {
    const random = seededRandom(17);
    for (let i = 0; i < 150; i++) {
      const changed = bytes.slice();
      for (let k = random.below(6); k >= 0; k--)
        changed[random.below(i % 2 ? changed.length : 300)] = random.below(256);
      const at = random.below(bytes.length);
      const bent =
        i % 3 === 0
          ? Uint8Array.from([...changed.subarray(0, at), ...changed.subarray(Math.max(0, at - random.below(9)))])
          : changed;
      const error = await refusal(bent, name);
      if (error) expectOneSentence(error, name);
    }
  });
});

describe('bad input', () => {
  const names = ['a.ply', 'a.stl', 'a.obj', 'a.glb', 'a.gltf', 'a.x3p', 'a.zip', 'a.png', 'a.tif', 'a.txt', 'a', ''];

  it('nothing at all is "empty", whatever its name', async () => {
    for (const name of names) expect(await refusal(new Uint8Array(0), name)).toMatchObject({ code: 'empty' });
  });

  it('noise of any length is refused under any name', async () => {
    const random = seededRandom(3);
    for (const name of names)
      for (const length of [1, 3, 4, 12, 84, 100, 5000]) {
        const error = await refusal(
          Uint8Array.from({ length }, () => random.below(256)),
          name,
        );
        expect(error).toBeInstanceOf(ScanError);
        if (error) expectOneSentence(error, name);
      }
  });

  it('a scan is read under a wrong ending', async () => {
    for (const [name, bytes] of Object.entries(samples))
      for (const wrong of ['a.ply', 'a.stl', 'A.OBJ', 'a.glb', 'a.PNG', 'a.txt', 'a'])
        expect(await refusal(bytes, wrong), `${name} as ${wrong}`).toBeUndefined();
  });

  it.each<[string, string, string]>([
    [
      'a huge number of vertices',
      'ply\nformat binary_little_endian 1.0\nelement vertex 4294967295\nproperty double x\nproperty double y\nproperty double z\nend_header\n',
      'truncated',
    ],
    [
      'a huge number of faces',
      'ply\nformat ascii 1.0\nelement vertex 1\nproperty float x\nproperty float y\nproperty float z\nelement face 9007199254740991\nproperty list uchar int vertex_indices\nend_header\n1 2 3\n3 0 0 0\n',
      'truncated',
    ],
    [
      'a number beyond whole numbers',
      'ply\nformat ascii 1.0\nelement vertex 99999999999999999999\nend_header\n',
      'malformed',
    ],
    ['a negative number', 'ply\nformat ascii 1.0\nelement vertex -1\nend_header\n', 'malformed'],
    [
      'a huge list',
      'ply\nformat ascii 1.0\nelement vertex 1\nproperty float x\nproperty float y\nproperty float z\nelement face 1\nproperty list uint int vertex_indices\nend_header\n1 2 3\n4294967295 0 0 0\n',
      'truncated',
    ],
    [
      'vertices without z',
      'ply\nformat ascii 1.0\nelement vertex 1\nproperty float x\nproperty float y\nend_header\n1 2\n',
      'malformed',
    ],
    ['an unknown type', 'ply\nformat ascii 1.0\nelement vertex 1\nproperty quad x\nend_header\n1\n', 'malformed'],
    ['an unknown format', 'ply\nformat utf8 1.0\nend_header\n', 'malformed'],
    ['a header without end', `ply\nformat ascii 1.0\n${'comment x\n'.repeat(200_000)}`, 'truncated'],
    [
      'an empty element without end',
      'ply\nformat ascii 1.0\nelement nothing 9007199254740991\nend_header\n',
      'noTriangles',
    ],
    [
      'points only',
      'ply\nformat ascii 1.0\nelement vertex 1\nproperty float x\nproperty float y\nproperty float z\nend_header\n1 2 3\n',
      'noTriangles',
    ],
  ])('a PLY header with %s', async (_, text, code) => {
    // Reading to the announced end would never come back: the test's own time limit sees that.
    const error = await refusal(bytesOf(text), 'a.ply');
    expect(error).toMatchObject({ code });
  });

  it('a binary STL that announces more than it holds', async () => {
    const bytes = binaryStl(shape);
    new DataView(bytes.buffer).setUint32(80, 0xffffffff, true);
    expect(await refusal(bytes, 'a.stl')).toMatchObject({ code: 'truncated' });
  });

  it('only vertices that are not numbers', async () => {
    const text =
      'ply\nformat ascii 1.0\nelement vertex 3\nproperty float x\nproperty float y\nproperty float z\nelement face 1\nproperty list uchar int vertex_indices\nend_header\nnan 0 0\n0 inf 0\n0 0 -nan\n3 0 1 2\n';
    expect(await refusal(bytesOf(text), 'a.ply')).toMatchObject({ code: 'noTriangles' });
  });

  it('other things with a scan ending are named for what they are', async () => {
    const page = bytesOf('<!DOCTYPE html><html><body>Not found</body></html>');
    expect((await refusal(page, 'scan'))?.message).toMatch(/is XML or a web page; export the scan as PLY/);
    const several = zipSync({ 'a.stl': binaryStl(shape), 'b.stl': binaryStl(shape) });
    expect(await refusal(several, 'both.zip')).toMatchObject({ code: 'unsupported' });
    expect(await refusal(zipSync({ 'notes.txt': bytesOf('x') }), 'notes.zip')).toMatchObject({ code: 'unsupported' });
    expect(await refusal(zipSync({ 'scan.ply': zipSync({ 'scan.ply': textPly(shape) }) }), 'nested.zip')).toMatchObject(
      { code: 'unsupported' },
    );
  });

  it('can be stopped on the way, and reports how far it is', async () => {
    const fractions: number[] = [];
    await readScan(samples['binary.ply'], 'a.ply', {}, { progress: (fraction) => fractions.push(fraction) });
    expect(fractions.length).toBeGreaterThan(3);
    expect([...fractions].sort((a, b) => a - b)).toEqual(fractions);
    await expect(readScan(samples['binary.ply'], 'a.ply', {}, { signal: { aborted: true } })).rejects.toMatchObject({
      name: 'Cancelled',
    });
  });
});
