import { readFileSync } from 'node:fs';
import { encode } from 'fast-png';
import { zipSync } from 'fflate';
import { MeshoptEncoder } from 'meshoptimizer/encoder';
import { writePly } from '../../../src/core/scan/index.ts';
import { asUtf16, makeGlb, makeX3p, meshBuffer, meshDocument } from '../../scan/makers.ts';
import { ball, binaryStl, bumpySheet, bytesOf, textObj, textPly, textStl } from '../../scan/shapes.ts';
import { makeTiff } from '../../scan/tiffMaker.ts';

/** A sound small file of one entrance. */
export interface Seed {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** What lies beside it. */
  readonly files?: Readonly<Record<string, Uint8Array>>;
}

const shape = ball(2);
const sheet = bumpySheet(4, 4);
const heights = Float64Array.from({ length: 30 }, (_, i) => (i === 7 ? Number.NaN : (i * 7919) % 1000));
const whole = heights.map((value) => (Number.isNaN(value) ? 0 : value));

/** Every format, and of each the shapes that its reader treats apart; small, so that a mutation hits what matters. */
export async function seeds(): Promise<Seed[]> {
  return [...meshSeeds(), ...(await gltfSeeds()), ...heightSeeds(), ...savedSeeds()];
}

/** What the app lets in beside scans; `trial.ts` takes them to their own doors by these names. */
export const savedNames = ['saved.glb', 'session.json'] as const;

function savedSeeds(): Seed[] {
  return ['saved-2.glb', 'session-1.json'].map((fixture, i) => ({
    name: savedNames[i],
    bytes: new Uint8Array(readFileSync(`tests/app/fixtures/${fixture}`)),
  }));
}

function meshSeeds(): Seed[] {
  const stl = binaryStl(sheet);
  const grid =
    'ply\nformat ascii 1.0\nobj_info num_cols 3\nobj_info num_rows 2\nelement vertex 5\nproperty float x\nproperty float y\nproperty float z\nelement range_grid 6\nproperty list uchar int vertex_indices\nend_header\n0 0 0\n1 0 .1\n2 0 0\n0 1 0\n1 1 .2\n1 0\n1 1\n1 2\n1 3\n1 4\n0\n';
  const strips =
    'ply\nformat ascii 1.0\ncomment made\nelement vertex 4\nproperty double x\nproperty double y\nproperty double z\nproperty list uchar float extra\nelement tristrips 1\nproperty list int int vertex_indices\nelement other 2\nproperty char a\nend_header\n0 0 0 1 5\n1 0 .1 0\n2 0 0 2 1 1\n0 1 0 0\n6 0 1 2 -1 1 3\n1\n2\n';
  const polygons =
    'v 0 0 0\nv 2 0 0\nv 2 2 0\nv 1 .5 0\nv 0 2 .1\ng a\nf 1/1/1 2 3 4 \\\n 5\nf -1 -2 -3\nf 1 2\nl 1 2\n';
  return [
    { name: 'text.ply', bytes: textPly(sheet) },
    { name: 'binary.ply', bytes: writePly(Float32Array.from(shape.positions), shape.triangles) },
    { name: 'grid.ply', bytes: bytesOf(grid) },
    { name: 'strips.ply', bytes: bytesOf(strips) },
    { name: 'utf16.ply', bytes: asUtf16(strips) },
    { name: 'binary.stl', bytes: stl },
    { name: 'text.stl', bytes: textStl(sheet) },
    { name: 'mesh.obj', bytes: textObj(sheet) },
    { name: 'polygons.obj', bytes: bytesOf(polygons) },
    { name: 'zipped.zip', bytes: zipSync({ 'a/mesh.stl': stl, 'a/notes.txt': bytesOf('x') }) },
  ];
}

async function gltfSeeds(): Promise<Seed[]> {
  const { positions, triangles } = sheet;
  const buffer = meshBuffer(positions, triangles);
  const vertices = positions.length / 3;
  const document = meshDocument(vertices, triangles.length);
  const base64 = `data:application/octet-stream;base64,${Buffer.from(buffer).toString('base64')}`;
  const sparse = {
    ...document,
    accessors: [
      {
        ...document.accessors[0],
        sparse: { count: 2, indices: { bufferView: 1, componentType: 5125 }, values: { bufferView: 0 } },
      },
      document.accessors[1],
    ],
  };
  return [
    { name: 'mesh.glb', bytes: makeGlb(document, buffer) },
    { name: 'sparse.glb', bytes: makeGlb(sparse, buffer) },
    { name: 'meshopt.glb', bytes: await packed(vertices) },
    { name: 'filtered.glb', bytes: await packed(vertices, 'EXPONENTIAL') },
    { name: 'quantised.glb', bytes: quantised() },
    { name: 'mesh.gltf', bytes: bytesOf(JSON.stringify(meshDocument(vertices, triangles.length, base64))) },
    {
      name: 'beside.gltf',
      bytes: bytesOf(JSON.stringify(meshDocument(vertices, triangles.length, 'a%20b.bin'))),
      files: { 'a b.bin': buffer },
    },
  ];
}

/** The same mesh with both views packed after EXT_meshopt_compression, its positions filtered or not. */
async function packed(vertices: number, filter: 'NONE' | 'EXPONENTIAL' = 'NONE'): Promise<Uint8Array> {
  await MeshoptEncoder.ready;
  const { positions, triangles } = sheet;
  const floats = Float32Array.from(positions);
  const stored =
    filter === 'NONE' ? new Uint8Array(floats.buffer) : MeshoptEncoder.encodeFilterExp(floats, vertices, 12, 20);
  const places = MeshoptEncoder.encodeGltfBuffer(stored, vertices, 12, 'ATTRIBUTES');
  const corners = MeshoptEncoder.encodeGltfBuffer(new Uint8Array(triangles.buffer), triangles.length, 4, 'TRIANGLES');
  const document = meshDocument(vertices, triangles.length);
  const view = (byteOffset: number, byteLength: number, byteStride: number, count: number, mode: object) => ({
    buffer: 1,
    byteLength: count * byteStride,
    extensions: { EXT_meshopt_compression: { buffer: 0, byteOffset, byteLength, byteStride, count, ...mode } },
  });
  const both = new Uint8Array(places.length + corners.length);
  both.set(places);
  both.set(corners, places.length);
  return makeGlb(
    {
      ...document,
      bufferViews: [
        view(0, places.length, 12, vertices, { mode: 'ATTRIBUTES', filter }),
        view(places.length, corners.length, 4, triangles.length, { mode: 'TRIANGLES' }),
      ],
      buffers: [{ byteLength: both.length }, { byteLength: buffer64 }],
    },
    both,
  );
}

/** Positions as normalised whole numbers of two bytes, eight bytes apart (KHR_mesh_quantization). */
function quantised(): Uint8Array {
  const { positions, triangles } = sheet;
  const vertices = positions.length / 3;
  const binary = new Uint8Array(vertices * 8 + triangles.length * 4);
  const view = new DataView(binary.buffer);
  positions.forEach((value, i) => {
    view.setInt16(8 * Math.floor(i / 3) + 2 * (i % 3), value * 2000, true);
  });
  binary.set(new Uint8Array(Uint32Array.from(triangles).buffer), vertices * 8);
  const document = meshDocument(vertices, triangles.length);
  const [places, corners] = document.accessors;
  return makeGlb(
    {
      ...document,
      accessors: [{ ...places, componentType: 5122, normalized: true }, corners],
      bufferViews: [
        { buffer: 0, byteOffset: 0, byteLength: vertices * 8, byteStride: 8 },
        { buffer: 0, byteOffset: vertices * 8, byteLength: triangles.length * 4 },
      ],
      buffers: [{ byteLength: binary.length }],
    },
    binary,
  );
}
const buffer64 = 64;

function heightSeeds(): Seed[] {
  const grey = (channels: 1 | 2) =>
    encode({
      width: 6,
      height: 5,
      depth: 16,
      channels,
      data: Uint16Array.from({ length: 30 * channels }, (_, i) => i * 99),
    });
  const tiff = { width: 6, height: 5, values: whole } as const;
  return [
    { name: 'grey.png', bytes: grey(1) },
    { name: 'clear.png', bytes: grey(2) },
    { name: 'plain.tif', bytes: makeTiff({ ...tiff, sample: '3/32' }) },
    { name: 'big.tif', bytes: makeTiff({ ...tiff, sample: '2/32', big: true, little: false }) },
    { name: 'lzw.tif', bytes: makeTiff({ ...tiff, sample: '1/16', compression: 5, predictor: 2 }) },
    { name: 'planes.tif', bytes: makeTiff({ ...tiff, sample: '3/32', compression: 8, predictor: 3, tile: 16 }) },
    { name: 'bits.tif', bytes: makeTiff({ ...tiff, sample: '2/16', compression: 32773 }) },
    { name: 'list.x3p', bytes: makeX3p(6, 5, heights, true) },
    { name: 'binary.x3p', bytes: makeX3p(6, 5, heights, false) },
  ];
}
