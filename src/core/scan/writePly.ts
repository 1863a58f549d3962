import { inStretches, type Vec3 } from '../geometry/index.ts';

/** One float property per vertex, beside x, y and z. */
export interface PlyFloatProperty {
  readonly name: string;
  readonly values: Float32Array | Float64Array;
}

/**
 * Binary little-endian PLY of the vertices in their order, with further float properties; points only where
 * `triangles` is null. Coordinates become `float`, or `double` from float64 and where an `offset` is put back. NaN is kept.
 * Throws on a property whose length is not the number of vertices: a programming mistake.
 */
export function writePly(
  positions: Float32Array | Float64Array,
  triangles: Uint32Array | null,
  properties: readonly PlyFloatProperty[] = [],
  offset: Vec3 | null = positions instanceof Float64Array ? [0, 0, 0] : null,
): Uint8Array {
  const count = positions.length / 3;
  for (const { name, values } of properties)
    if (values.length !== count)
      throw new Error(`The PLY property ${name} has ${values.length} values for ${count} vertices.`);
  const beside = offset ? 24 : 12;
  const stride = beside + properties.length * 4;
  const header = headerOf(count, triangles ? triangles.length / 3 : null, offset !== null, properties);
  const start = header.length;
  const out = new Uint8Array(start + count * stride + (triangles ? (triangles.length / 3) * 13 : 0));
  for (let i = 0; i < start; i++) out[i] = header.charCodeAt(i);
  const view = new DataView(out.buffer);
  if (offset) inStretches(writeInFile, { view, start, stride, positions, offset }, count);
  else inStretches(writeCentred, { view, start, stride, positions }, count);
  properties.forEach(({ values }, k) => {
    inStretches(writeProperty, { view, start: start + beside + 4 * k, stride, values }, count);
  });
  if (triangles) writeTriangles(view, start + count * stride, triangles);
  return out;
}

/** Where the first vertex' numbers stand, and how far the next one's are from there. */
interface Column {
  readonly view: DataView;
  readonly start: number;
  readonly stride: number;
}

type Vertices = Column & { readonly positions: Float32Array | Float64Array };

function writeCentred({ view, start, stride, positions: p }: Vertices, from: number, to: number): void {
  for (let i = 3 * from, at = start + from * stride; i < 3 * to; i += 3, at += stride) {
    view.setFloat32(at, p[i], true);
    view.setFloat32(at + 4, p[i + 1], true);
    view.setFloat32(at + 8, p[i + 2], true);
  }
}

function writeInFile(job: Vertices & { readonly offset: Vec3 }, from: number, to: number): void {
  const { view, start, stride, positions: p, offset } = job;
  const [x, y, z] = offset;
  for (let i = 3 * from, at = start + from * stride; i < 3 * to; i += 3, at += stride) {
    view.setFloat64(at, p[i] + x, true);
    view.setFloat64(at + 8, p[i + 1] + y, true);
    view.setFloat64(at + 16, p[i + 2] + z, true);
  }
}

function writeProperty(job: Column & Pick<PlyFloatProperty, 'values'>, from: number, to: number): void {
  const { view, start, stride, values } = job;
  for (let i = from, at = start + from * stride; i < to; i++, at += stride) view.setFloat32(at, values[i], true);
}

function headerOf(
  vertices: number,
  faces: number | null,
  double: boolean,
  properties: readonly PlyFloatProperty[],
): string {
  const type = double ? 'double' : 'float';
  const lines = ['ply', 'format binary_little_endian 1.0', `element vertex ${vertices}`];
  for (const axis of ['x', 'y', 'z']) lines.push(`property ${type} ${axis}`);
  for (const { name } of properties) lines.push(`property float ${name}`);
  if (faces !== null) lines.push(`element face ${faces}`, 'property list uchar int vertex_indices');
  return `${lines.join('\n')}\nend_header\n`;
}

function writeTriangles(view: DataView, start: number, triangles: Uint32Array): void {
  for (let i = 0, at = start; i < triangles.length; i += 3, at += 13) {
    view.setUint8(at, 3);
    view.setUint32(at + 1, triangles[i], true);
    view.setUint32(at + 5, triangles[i + 1], true);
    view.setUint32(at + 9, triangles[i + 2], true);
  }
}
