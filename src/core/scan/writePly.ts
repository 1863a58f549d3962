/** One float property per vertex, beside x, y and z. */
export interface PlyFloatProperty {
  readonly name: string;
  readonly values: Float32Array | Float64Array;
}

/**
 * Binary little-endian PLY of the vertices in their order, with further float properties; points only where
 * `triangles` is null. Coordinates become `float`, or `double` from float64 (large offsets put back). NaN is kept.
 * Throws on a property whose length is not the number of vertices: a programming mistake.
 */
export function writePly(
  positions: Float32Array | Float64Array,
  triangles: Uint32Array | null,
  properties: readonly PlyFloatProperty[] = [],
): Uint8Array {
  const count = positions.length / 3;
  for (const { name, values } of properties)
    if (values.length !== count)
      throw new Error(`The PLY property ${name} has ${values.length} values for ${count} vertices.`);
  const double = positions instanceof Float64Array;
  const stride = (double ? 24 : 12) + properties.length * 4;
  const header = headerOf(count, triangles ? triangles.length / 3 : null, double, properties);
  const out = new Uint8Array(header.length + count * stride + (triangles ? (triangles.length / 3) * 13 : 0));
  for (let i = 0; i < header.length; i++) out[i] = header.charCodeAt(i);
  const view = new DataView(out.buffer);
  let at = header.length;
  for (let vertex = 0; vertex < count; vertex++) {
    for (let axis = vertex * 3; axis < vertex * 3 + 3; axis++) {
      if (double) view.setFloat64(at, positions[axis], true);
      else view.setFloat32(at, positions[axis], true);
      at += double ? 8 : 4;
    }
    for (const { values } of properties) {
      view.setFloat32(at, values[vertex], true);
      at += 4;
    }
  }
  if (triangles) writeTriangles(view, at, triangles);
  return out;
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
