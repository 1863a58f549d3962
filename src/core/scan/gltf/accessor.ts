import type { GltfAccessor, GltfDocument } from './document.ts';
import { malformedGltf, type Views, whole } from './views.ts';

const componentsOf: Readonly<Record<string, number>> = { SCALAR: 1, VEC2: 2, VEC3: 3, VEC4: 4 };

interface Component {
  readonly size: number;
  /** Largest value, by which normalised whole numbers are divided. */
  readonly full: number;
  read(view: DataView, at: number): number;
}

const components = new Map<number, Component>([
  [5120, { size: 1, full: 127, read: (view, at) => view.getInt8(at) }],
  [5121, { size: 1, full: 255, read: (view, at) => view.getUint8(at) }],
  [5122, { size: 2, full: 32_767, read: (view, at) => view.getInt16(at, true) }],
  [5123, { size: 2, full: 65_535, read: (view, at) => view.getUint16(at, true) }],
  [5125, { size: 4, full: 4_294_967_295, read: (view, at) => view.getUint32(at, true) }],
  [5126, { size: 4, full: 1, read: (view, at) => view.getFloat32(at, true) }],
]);

/** More elements than any scan has. */
const mostElements = 2 ** 28;
const mostZeros = 3_000_000;

/**
 * Elements of an accessor as numbers, element after element: strides, whole-number types (KHR_mesh_quantization),
 * normalisation (divided by the largest value, not below −1) and sparse replacements applied.
 */
export function readAccessor(
  document: GltfDocument,
  views: Views,
  index: number,
  type: 'SCALAR' | 'VEC3',
): Float64Array {
  const accessor = document.accessors?.[whole(index, 'accessor')];
  if (!accessor || accessor.type !== type) throw malformedGltf('an accessor is missing or of the wrong type');
  const width = componentsOf[type];
  const count = whole(accessor.count, 'count');
  if (count > mostElements) throw malformedGltf('count');
  const component = componentOf(accessor.componentType);
  views.budget.bytes(count * width * 8);
  if (accessor.bufferView === undefined) {
    const base = zeros(count * width);
    return normalise(sparse(base, accessor, views, component, width), accessor, component);
  }
  const out = readElements(views, accessor.bufferView, accessor.byteOffset, component, width, count);
  return normalise(sparse(out, accessor, views, component, width), accessor, component);
}

/** Without a view the values are zero but for the sparse ones; a surface cannot be made of many zeros. */
function zeros(length: number): Float64Array {
  if (length > mostZeros) throw malformedGltf('count');
  return new Float64Array(length);
}

function componentOf(type: unknown): Component {
  const component = components.get(type as number);
  if (!component) throw malformedGltf('componentType');
  return component;
}

function readElements(
  views: Views,
  bufferView: unknown,
  byteOffset: unknown,
  component: Component,
  width: number,
  count: number,
): Float64Array {
  const { bytes, stride } = views.view(whole(bufferView, 'bufferView'));
  const start = whole(byteOffset, 'byteOffset', 0);
  const size = component.size * width;
  const step = stride === 0 ? size : stride;
  if (step < size) throw malformedGltf('byteStride');
  if (count > 0 && start + (count - 1) * step + size > bytes.length)
    throw malformedGltf('an accessor is longer than its data');
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const out = new Float64Array(count * width);
  for (let i = 0, used = 0; i < count; i++)
    for (let k = 0; k < width; k++) out[used++] = component.read(view, start + i * step + k * component.size);
  return out;
}

function sparse(
  base: Float64Array,
  accessor: GltfAccessor,
  views: Views,
  component: Component,
  width: number,
): Float64Array {
  const { sparse: stated } = accessor;
  if (!stated) return base;
  const count = whole(stated.count, 'sparse count');
  views.budget.bytes(count * (width + 1) * 8);
  const indexType = componentOf(stated.indices?.componentType);
  const places = readElements(views, stated.indices?.bufferView, stated.indices?.byteOffset, indexType, 1, count);
  const values = readElements(views, stated.values?.bufferView, stated.values?.byteOffset, component, width, count);
  for (let i = 0; i < count; i++) {
    if ((places[i] + 1) * width > base.length) throw malformedGltf('sparse indices');
    base.set(values.subarray(i * width, (i + 1) * width), places[i] * width);
  }
  return base;
}

function normalise(values: Float64Array, accessor: GltfAccessor, component: Component): Float64Array {
  if (accessor.normalized !== true || component.full === 1) return values;
  for (let i = 0; i < values.length; i++) values[i] = Math.max(-1, values[i] / component.full);
  return values;
}
