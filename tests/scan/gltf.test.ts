import { MeshoptEncoder } from 'meshoptimizer/encoder';
import { Matrix4, Object3D, Vector3 } from 'three';
import { beforeAll, describe, expect, it } from 'vitest';
import { type ReadExtras, readScan, ScanError } from '../../src/core/scan/index.ts';
import { ball, bumpySheet, bytesOf, type Shape } from './shapes.ts';
import { areaAndVolume, asSet, cornersInFile, largestDifference } from './surfaces.ts';

type Json = Record<string, unknown>;

/** A glTF under construction: buffer views are added one after another to one buffer. */
class Gltf {
  readonly json: Json & { bufferViews: Json[]; accessors: Json[]; meshes: Json[]; nodes: Json[] };
  private bytes: number[] = [];

  constructor() {
    this.json = {
      asset: { version: '2.0' },
      scene: 0,
      scenes: [{ nodes: [0] }],
      bufferViews: [],
      accessors: [],
      meshes: [],
      nodes: [{ mesh: 0 }],
    };
  }

  view(data: ArrayBufferView, more: Json = {}): number {
    while (this.bytes.length % 4) this.bytes.push(0);
    this.json.bufferViews.push({ buffer: 0, byteOffset: this.bytes.length, byteLength: data.byteLength, ...more });
    this.bytes.push(...new Uint8Array(data.buffer, data.byteOffset, data.byteLength));
    return this.json.bufferViews.length - 1;
  }

  accessor(more: Json): number {
    return this.json.accessors.push(more) - 1;
  }

  floats(positions: ArrayLike<number>): number {
    const data = Float32Array.from(positions);
    return this.accessor({ bufferView: this.view(data), componentType: 5126, count: data.length / 3, type: 'VEC3' });
  }

  corners(triangles: ArrayLike<number>): number {
    const data = Uint32Array.from(triangles);
    return this.accessor({ bufferView: this.view(data), componentType: 5125, count: data.length, type: 'SCALAR' });
  }

  mesh(...primitives: Json[]): this {
    this.json.meshes.push({ primitives });
    return this;
  }

  get buffer(): Uint8Array {
    return Uint8Array.from(this.bytes);
  }

  glb(): Uint8Array {
    const json = bytesOf(JSON.stringify({ buffers: [{ byteLength: this.bytes.length }], ...this.json }));
    const pad = (length: number) => Math.ceil(length / 4) * 4;
    const out = new Uint8Array(28 + pad(json.length) + pad(this.bytes.length)).fill(32);
    const view = new DataView(out.buffer);
    for (const [i, word] of [0x46546c67, 2, out.length, pad(json.length), 0x4e4f534a].entries())
      view.setUint32(i * 4, word, true);
    out.set(json, 20);
    view.setUint32(20 + pad(json.length), pad(this.bytes.length), true);
    view.setUint32(24 + pad(json.length), 0x004e4942, true);
    out.set(this.bytes, 28 + pad(json.length));
    return out;
  }

  text(uri?: string): Uint8Array {
    return bytesOf(
      JSON.stringify({ ...this.json, buffers: [{ byteLength: this.bytes.length, ...(uri ? { uri } : {}) }] }),
    );
  }
}

const read = (bytes: Uint8Array, extras: ReadExtras = {}) => readScan(bytes, 'a.glb', extras);

const plain = (shape: Shape): Gltf => {
  const gltf = new Gltf();
  return gltf.mesh({ attributes: { POSITION: gltf.floats(shape.positions) }, indices: gltf.corners(shape.triangles) });
};

const shape = ball(4, 0.02, [0.1, 0, 0]);

describe('glTF', () => {
  it('gives vertices and triangles in the order of the file, in metres that are not trusted', async () => {
    const scan = await read(plain(shape).glb());
    expect(scan.mesh.triangles).toEqual(shape.triangles);
    expect(scan).toMatchObject({ format: 'gltf', unitInFile: 'm', unitTrusted: false });
    const expected = [...shape.triangles].flatMap((c) => [...shape.positions.subarray(c * 3, c * 3 + 3)]);
    expect(largestDifference(cornersInFile(scan.mesh), expected)).toBeLessThan(1e-8);
  });

  it('places meshes by nested nodes as three.js does', async () => {
    const gltf = plain(shape);
    const rotation = [0.1, -0.5, 0.3, 0.806225774829855];
    const matrix = new Matrix4().makeRotationX(0.4).setPosition(1, 2, 3);
    gltf.json.nodes = [
      { children: [1, 2], translation: [0.5, -1, 2], rotation, scale: [2, 2, 2] },
      { mesh: 0, matrix: matrix.toArray() },
      { children: [3], translation: [0, 0, 1] },
      { mesh: 0, rotation },
    ];
    const root = new Object3D();
    root.position.set(0.5, -1, 2);
    root.quaternion.set(0.1, -0.5, 0.3, 0.806225774829855);
    root.scale.setScalar(2);
    const first = new Object3D();
    first.applyMatrix4(matrix);
    const middle = new Object3D();
    middle.position.set(0, 0, 1);
    const second = new Object3D();
    second.quaternion.set(0.1, -0.5, 0.3, 0.806225774829855);
    root.add(first, middle.add(second));
    root.updateMatrixWorld(true);
    const expected = [first, second].flatMap(({ matrixWorld }) =>
      [...shape.triangles].flatMap((corner) =>
        new Vector3()
          .fromArray(shape.positions, corner * 3)
          .applyMatrix4(matrixWorld)
          .toArray(),
      ),
    );
    expect(largestDifference(cornersInFile((await read(gltf.glb())).mesh), expected)).toBeLessThan(1e-6);
  });

  it('keeps the outside out where a node mirrors its mesh', async () => {
    const gltf = plain(shape);
    gltf.json.nodes = [{ mesh: 0, scale: [-1, 1, 1] }];
    const scan = await read(gltf.glb());
    expect(areaAndVolume(scan.mesh).volume).toBeGreaterThan(0);
    expect(scan.repairs.flipped).toBe(0);
  });

  it('unrolls strips and fans, with and without corner lists', async () => {
    const strip = [0, 1, 2, 3].flatMap((x) => [x, 0, 0, x, 1, 0]);
    const gltf = new Gltf();
    const positions = gltf.floats(strip);
    gltf.mesh({ attributes: { POSITION: positions }, mode: 5 });
    expect([...(await read(gltf.glb())).mesh.triangles]).toEqual([
      0, 1, 2, 2, 1, 3, 2, 3, 4, 4, 3, 5, 4, 5, 6, 6, 5, 7,
    ]);
    const fan = new Gltf();
    fan.mesh({
      attributes: { POSITION: fan.floats([0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0]) },
      indices: fan.corners([0, 1, 2, 3]),
      mode: 6,
    });
    expect([...(await read(fan.glb())).mesh.triangles]).toEqual([0, 1, 2, 0, 2, 3]);
  });

  it('passes over points and lines', async () => {
    const gltf = plain(shape);
    (gltf.json.meshes[0].primitives as Json[]).push(
      { attributes: { POSITION: 0 }, mode: 1 },
      { attributes: { POSITION: 0 }, mode: 0 },
    );
    expect((await read(gltf.glb())).triangles).toBe(shape.triangles.length / 3);
  });

  it('gives positions that primitives share once', async () => {
    const gltf = new Gltf();
    const sheet = bumpySheet(5, 5);
    const POSITION = gltf.floats(sheet.positions);
    const half = sheet.triangles.length / 2;
    gltf.mesh(
      { attributes: { POSITION }, indices: gltf.corners(sheet.triangles.subarray(0, half)) },
      { attributes: { POSITION }, indices: gltf.corners(sheet.triangles.subarray(half)) },
    );
    const scan = await read(gltf.glb());
    expect(scan.vertices).toBe(25);
    expect(scan.mesh.triangles).toEqual(sheet.triangles);
  });

  it.each([
    ['5120, 127 steps', 5120, Int8Array, 127],
    ['5122, 32 767 steps', 5122, Int16Array, 32_767],
    ['5121, 255 steps', 5121, Uint8Array, 255],
    ['5123, 65 535 steps', 5123, Uint16Array, 65_535],
  ] as const)(
    'reads quantised positions of component type %s, plain and normalised, in strides',
    async (_, componentType, Type, steps) => {
      const unsigned = componentType % 2 === 1;
      const unit = ball(3, unsigned ? 0.5 : 1, unsigned ? [0.5, 0.5, 0.5] : [0, 0, 0]);
      const count = unit.positions.length / 3;
      const data = new Type(count * 4);
      for (let i = 0; i < unit.positions.length; i++)
        data[Math.floor(i / 3) * 4 + (i % 3)] = Math.round(unit.positions[i] * steps);
      const reads = await Promise.all(
        [false, true].map((normalized) => {
          const gltf = new Gltf();
          const bufferView = gltf.view(data, { byteStride: data.BYTES_PER_ELEMENT * 4 });
          const POSITION = gltf.accessor({ bufferView, componentType, normalized, count, type: 'VEC3' });
          gltf.mesh({ attributes: { POSITION }, indices: gltf.corners(unit.triangles) });
          if (!normalized) gltf.json.nodes = [{ mesh: 0, scale: [1 / steps, 1 / steps, 1 / steps] }];
          gltf.json.extensionsRequired = ['KHR_mesh_quantization'];
          return read(gltf.glb());
        }),
      );
      const expected = [...unit.triangles].flatMap((corner) => [
        ...unit.positions.subarray(corner * 3, corner * 3 + 3),
      ]);
      for (const { mesh } of reads)
        expect(largestDifference(cornersInFile(mesh), expected)).toBeLessThanOrEqual(0.5 / steps + 1e-6);
    },
  );

  it('applies sparse replacements, to data and to zeros', async () => {
    const sheet = bumpySheet(4, 4);
    for (const base of [true, false]) {
      const gltf = new Gltf();
      const places = base ? [3, 7] : [...Array(16).keys()];
      const wanted = sheet.positions.map((value, i) => (places.includes(Math.floor(i / 3)) ? value + 2 : value));
      const sparse = {
        count: places.length,
        indices: { bufferView: gltf.view(Uint16Array.from(places)), componentType: 5123 },
        values: {
          bufferView: gltf.view(
            Float32Array.from(places.flatMap((place) => [...wanted.subarray(place * 3, place * 3 + 3)])),
          ),
        },
      };
      const stored = base ? { bufferView: gltf.view(Float32Array.from(sheet.positions)) } : {};
      const POSITION = gltf.accessor({ ...stored, componentType: 5126, count: 16, type: 'VEC3', sparse });
      const { mesh } = await read(
        gltf.mesh({ attributes: { POSITION }, indices: gltf.corners(sheet.triangles) }).glb(),
      );
      expect(
        largestDifference(
          mesh.positions.map((value, i) => value + mesh.offset[i % 3]),
          wanted,
        ),
      ).toBeLessThan(1e-6);
    }
  });

  it('takes its buffer from the file, a data URI or a file that is handed in, and fetches nothing', async () => {
    const gltf = plain(shape);
    const triangles = asSet(cornersInFile((await read(gltf.glb())).mesh), 7);
    const base64 = `data:application/octet-stream;base64,${Buffer.from(gltf.buffer).toString('base64')}`;
    const inside = await read(gltf.text(base64));
    const beside = await read(gltf.text('my%20scan.bin'), { files: { 'my scan.bin': gltf.buffer } });
    const below = await read(gltf.text('buffers/scan.bin'), { files: { 'scan.bin': gltf.buffer } });
    for (const scan of [inside, beside, below]) expect(asSet(cornersInFile(scan.mesh), 7)).toEqual(triangles);
    await expect(read(gltf.text('https://example.org/scan.bin'))).rejects.toThrow(
      /needs the file "https:\/\/example.org\/scan.bin"/,
    );
  });
});

describe('glTF with meshopt compression', () => {
  beforeAll(() => MeshoptEncoder.ready);

  it.each(['EXT_meshopt_compression', 'KHR_meshopt_compression'])(
    '%s gives back what was packed',
    async (extension) => {
      const packed = (bytes: Uint8Array, count: number, byteStride: number, mode: string, gltf: Gltf) => {
        const { byteOffset, byteLength } = gltf.json.bufferViews[gltf.view(bytes)];
        gltf.json.bufferViews.pop();
        const view = {
          buffer: 1,
          byteLength: count * byteStride,
          byteStride: mode === 'ATTRIBUTES' ? byteStride : undefined,
        };
        return (
          gltf.json.bufferViews.push({
            ...view,
            extensions: { [extension]: { buffer: 0, byteOffset, byteLength, byteStride, count, mode } },
          }) - 1
        );
      };
      const gltf = new Gltf();
      const positions = Float32Array.from(shape.positions);
      const count = positions.length / 3;
      const vertices = MeshoptEncoder.encodeVertexBuffer(new Uint8Array(positions.buffer), count, 12);
      const corners = MeshoptEncoder.encodeIndexBuffer(
        new Uint8Array(shape.triangles.buffer),
        shape.triangles.length,
        4,
      );
      const POSITION = gltf.accessor({
        bufferView: packed(vertices, count, 12, 'ATTRIBUTES', gltf),
        componentType: 5126,
        count,
        type: 'VEC3',
      });
      const bufferView = packed(corners, shape.triangles.length, 4, 'TRIANGLES', gltf);
      gltf.mesh({
        attributes: { POSITION },
        indices: gltf.accessor({ bufferView, componentType: 5125, count: shape.triangles.length, type: 'SCALAR' }),
      });
      gltf.json.extensionsRequired = [extension];
      gltf.json.buffers = [
        { byteLength: gltf.buffer.length },
        { byteLength: 1e6, extensions: { [extension]: { fallback: true } } },
      ];
      const scan = await read(gltf.glb());
      expect(asSet(cornersInFile(scan.mesh), 6)).toEqual(
        asSet(cornersInFile((await read(plain(shape).glb())).mesh), 6),
      );
    },
  );

  it.each([
    [5123, 'ATTRIBUTES'],
    [6, 'ATTRIBUTES'],
    [0, 'ATTRIBUTES'],
    [12, 'TRIANGLES'],
    [4, 'ANYTHING'],
  ])('a stride of %d for %s is refused: the decoder would run on for ever', async (byteStride, mode) => {
    const gltf = plain(shape);
    const view = { buffer: 0, byteLength: 600, byteStride, count: 90, mode };
    gltf.json.bufferViews[0].extensions = { EXT_meshopt_compression: view };
    await expect(read(gltf.glb())).rejects.toMatchObject({ name: 'ScanError', code: 'malformed' });
  });
});

describe('glTF that is refused', () => {
  const refusal = async (change: (gltf: Gltf) => void): Promise<ScanError> => {
    const gltf = plain(shape);
    change(gltf);
    return read(gltf.glb()).then(
      () => expect.fail('was read'),
      (error: unknown) => error as ScanError,
    );
  };

  it('Draco, in one sentence', async () => {
    const error = await refusal(({ json }) => {
      json.extensionsRequired = ['KHR_draco_mesh_compression'];
    });
    expect(error).toBeInstanceOf(ScanError);
    expect(error.message).toBe(
      'a.glb: the glTF is compressed with Draco, which is not read; export it uncompressed or with meshopt.',
    );
  });

  it.each<[string, (json: Gltf['json']) => void]>([
    [
      'nodes in a loop',
      (json) => {
        json.nodes = [{ children: [1] }, { children: [0] }];
      },
    ],
    [
      'a node that is missing',
      (json) => {
        json.scenes = [{ nodes: [7] }];
      },
    ],
    [
      'a corner beyond the vertices',
      (json) => {
        json.accessors[0].count = 5;
      },
    ],
    [
      'a corner list of another type',
      (json) => {
        json.accessors[1].type = 'VEC2';
      },
    ],
    [
      'an accessor longer than its data',
      (json) => {
        json.accessors[0].count = 1e6;
      },
    ],
    [
      'a count that is no whole number',
      (json) => {
        json.accessors[0].count = 1.5;
      },
    ],
    [
      'a transform of words',
      (json) => {
        json.nodes = [{ mesh: 0, translation: ['a', 'b', 'c'] }];
      },
    ],
    [
      'a version of its own',
      (json) => {
        json.asset = { version: '3.0' };
      },
    ],
    [
      'meshes that are no list',
      (json) => {
        json.meshes = 7 as never;
      },
    ],
    [
      'nodes within nodes without end',
      (json) => {
        json.nodes = Array.from({ length: 60 }, (_, i) => (i < 59 ? { children: [i + 1, i + 1] } : { mesh: 0 }));
      },
    ],
  ])('%s', async (_, change) => {
    const error = await refusal(({ json }) => change(json));
    expect(error).toBeInstanceOf(ScanError);
    expect(['malformed', 'unsupported']).toContain(error.code);
  });
});
