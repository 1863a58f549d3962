import { MeshoptEncoder } from 'meshoptimizer/encoder';
import { type GeneratedScan, mmPerUnit } from '../types.ts';

/**
 * A scan as GLB in metres: positions in 16-bit steps (KHR_mesh_quantization) under a node's scale and translation,
 * vertices and triangles compressed by EXT_meshopt_compression, in an order that compresses well. One step is the
 * longest side ÷ 65535: about a micrometre on a seal. Sources: Khronos glTF 2.0 and the two extensions' texts.
 */
export async function toGlb(scan: GeneratedScan, note: string): Promise<Uint8Array> {
  await MeshoptEncoder.ready;
  const indices = scan.triangles.slice();
  const [order, count] = MeshoptEncoder.reorderMesh(indices, true, true);
  const { origin, step, packed } = quantise(scan, order, count);
  const vertexBytes = MeshoptEncoder.encodeGltfBuffer(packed.bytes, count, 8, 'ATTRIBUTES');
  const indexBytes = MeshoptEncoder.encodeGltfBuffer(new Uint8Array(indices.buffer), indices.length, 4, 'TRIANGLES');
  const indexStart = align4(vertexBytes.length);
  const bin = new Uint8Array(align4(indexStart + indexBytes.length));
  bin.set(vertexBytes);
  bin.set(indexBytes, indexStart);
  const view = (byteOffset: number, byteLength: number, stride: number, n: number, mode: string): object => ({
    buffer: 1,
    byteLength: stride * n,
    ...(mode === 'ATTRIBUTES' ? { byteStride: stride, target: 34962 } : { byteOffset: 8 * count, target: 34963 }),
    extensions: { EXT_meshopt_compression: { buffer: 0, byteOffset, byteLength, byteStride: stride, count: n, mode } },
  });
  const metres = mmPerUnit[scan.unit] / 1000;
  const json = {
    asset: { version: '2.0', generator: 'Ectype sample scans', extras: { simulated: true, note } },
    extensionsUsed: ['KHR_mesh_quantization', 'EXT_meshopt_compression'],
    extensionsRequired: ['KHR_mesh_quantization', 'EXT_meshopt_compression'],
    scene: 0,
    scenes: [{ nodes: [0] }],
    nodes: [
      {
        mesh: 0,
        name: 'simulated scan',
        scale: [step, step, step].map((v) => v * metres),
        translation: origin.map((v) => v * metres),
      },
    ],
    meshes: [{ primitives: [{ attributes: { POSITION: 0 }, indices: 1, mode: 4 }] }],
    accessors: [
      { bufferView: 0, componentType: 5123, count, type: 'VEC3', min: packed.min, max: packed.max },
      { bufferView: 1, componentType: 5125, count: indices.length, type: 'SCALAR' },
    ],
    bufferViews: [
      view(0, vertexBytes.length, 8, count, 'ATTRIBUTES'),
      view(indexStart, indexBytes.length, 4, indices.length, 'TRIANGLES'),
    ],
    // The second buffer stands for the decoded data and has no bytes of its own.
    buffers: [
      { byteLength: bin.length },
      { byteLength: 8 * count + 4 * indices.length, extensions: { EXT_meshopt_compression: { fallback: true } } },
    ],
  };
  return container(JSON.stringify(json), bin);
}

const align4 = (n: number): number => (n + 3) & ~3;

interface Packed {
  readonly bytes: Uint8Array;
  readonly min: readonly number[];
  readonly max: readonly number[];
}

/** Positions as 16-bit counts of `step` from `origin`, four shorts a vertex, in the new order. */
function quantise(
  scan: GeneratedScan,
  order: Uint32Array,
  count: number,
): { origin: number[]; step: number; packed: Packed } {
  const p = scan.positions;
  const low = [0, 1, 2].map(() => Number.POSITIVE_INFINITY);
  const high = [0, 1, 2].map(() => Number.NEGATIVE_INFINITY);
  for (let i = 0; i < p.length; i++) {
    low[i % 3] = Math.min(low[i % 3], p[i]);
    high[i % 3] = Math.max(high[i % 3], p[i]);
  }
  const step = Math.max(...high.map((v, a) => v - low[a])) / 65_535;
  const shorts = new Uint16Array(4 * count);
  const min = [65_535, 65_535, 65_535];
  const max = [0, 0, 0];
  for (let i = 0; i < order.length; i++) {
    if (order[i] === 0xffffffff) continue;
    for (let a = 0; a < 3; a++) {
      const value = Math.round((p[3 * i + a] - low[a]) / step);
      shorts[4 * order[i] + a] = value;
      min[a] = Math.min(min[a], value);
      max[a] = Math.max(max[a], value);
    }
  }
  return { origin: low, step, packed: { bytes: new Uint8Array(shorts.buffer), min, max } };
}

function container(json: string, bin: Uint8Array): Uint8Array {
  const text = Uint8Array.from(json.padEnd(align4(json.length)), (c) => c.charCodeAt(0));
  const out = new Uint8Array(12 + 8 + text.length + 8 + bin.length);
  const head = new DataView(out.buffer);
  head.setUint32(0, 0x46546c67, true);
  head.setUint32(4, 2, true);
  head.setUint32(8, out.length, true);
  head.setUint32(12, text.length, true);
  head.setUint32(16, 0x4e4f534a, true);
  out.set(text, 20);
  head.setUint32(20 + text.length, bin.length, true);
  head.setUint32(24 + text.length, 0x004e4942, true);
  out.set(bin, 28 + text.length);
  return out;
}
