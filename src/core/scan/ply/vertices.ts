import { ScanError } from '../error.ts';
import { type PlyElement, type PlyType, plySize } from './header.ts';
import { BinarySource, checkRoom, type PlySource, skipProperty, valueAt } from './source.ts';

/**
 * The x, y and z of every vertex, in the file's order and unit; other properties are passed over.
 * Float64 unless the file is binary and holds float32. Throws `malformed` where an axis is missing.
 */
export function readPlyVertices(source: PlySource, element: PlyElement): Float32Array | Float64Array {
  const axes = ['x', 'y', 'z'].map((axis) => element.properties.findIndex(({ name }) => name.toLowerCase() === axis));
  if (axes.some((index) => index < 0 || element.properties[index].countType))
    throw new ScanError('malformed', 'the PLY vertices have no x, y and z; export the file again.');
  checkRoom(source, element);
  const fixed = element.properties.every(({ countType }) => !countType);
  if (fixed && source instanceof BinarySource) return readFixedLayout(source, element, axes);
  const axisOf = element.properties.map((_, index) => axes.indexOf(index));
  const out = new Float64Array(element.count * 3);
  for (let i = 0; i < out.length; i += 3) {
    for (let p = 0; p < axisOf.length; p++) {
      if (axisOf[p] < 0) skipProperty(source, element.properties[p]);
      else out[i + axisOf[p]] = source.read(element.properties[p].type);
    }
    source.endEntry();
  }
  return out;
}

function readFixedLayout(source: BinarySource, element: PlyElement, axes: number[]): Float32Array | Float64Array {
  const { view, little } = source;
  const places: number[] = [];
  let stride = 0;
  for (const { type } of element.properties) {
    places.push(stride);
    stride += plySize[type];
  }
  const types = axes.map((index): PlyType => element.properties[index].type);
  const start = source.at;
  source.at += stride * element.count;
  const [x, y, z] = axes.map((index) => start + places[index]);
  if (types.every((type) => type === 'float32')) {
    const out = new Float32Array(element.count * 3);
    for (let i = 0, step = 0; i < out.length; i += 3, step += stride) {
      out[i] = view.getFloat32(x + step, little);
      out[i + 1] = view.getFloat32(y + step, little);
      out[i + 2] = view.getFloat32(z + step, little);
    }
    return out;
  }
  const out = new Float64Array(element.count * 3);
  for (let i = 0, step = 0; i < out.length; i += 3, step += stride) {
    out[i] = valueAt(view, x + step, types[0], little);
    out[i + 1] = valueAt(view, y + step, types[1], little);
    out[i + 2] = valueAt(view, z + step, types[2], little);
  }
  return out;
}
