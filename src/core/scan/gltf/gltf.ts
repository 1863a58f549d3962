import { MeshoptDecoder } from 'meshoptimizer/decoder';
import type { Budget } from '../admission/budget.ts';
import { ScanError } from '../error.ts';
import { FaceGatherer } from '../fan.ts';
import { checkSize } from '../limits.ts';
import type { Surface } from '../surface.ts';
import { grownFloat64 } from '../text/growing.ts';
import { readAccessor } from './accessor.ts';
import { type GltfFile, openGltf } from './container.ts';
import type { GltfDocument, GltfPrimitive } from './document.ts';
import { determinant, type Matrix4, placedMeshes } from './nodes.ts';
import { malformedGltf, Views, whole } from './views.ts';

const draco = 'KHR_draco_mesh_compression';
const instancing = 'EXT_mesh_gpu_instancing';

/** Work of one primitive beside its points. */
const primitiveSteps = 100;

/** Primitive modes that make triangles; the others are points and lines. */
const mode = { triangles: 4, strip: 5, fan: 6 };

/**
 * Reads glTF 2.0 or GLB: the triangles of every mesh that the scene shows, placed by its nodes, in the file's metres.
 * Vertices come in the order of the primitives; positions that primitives of a node share come once. Skins and morph
 * targets are left at rest. `files` holds external buffers by name.
 */
export async function readGltf(
  bytes: Uint8Array,
  files: Readonly<Record<string, Uint8Array>>,
  budget: Budget,
): Promise<Surface> {
  const file = openGltf(bytes);
  checkVersion(file.document);
  // Resolved once the small decoder is compiled; at once ever after.
  await MeshoptDecoder.ready;
  return gather(file, new Views(file, files, budget));
}

function checkVersion({ asset, extensionsRequired }: GltfDocument): void {
  if (typeof asset?.version !== 'string' || !/^2\./.test(asset.minVersion ?? asset.version))
    throw new ScanError('unsupported', 'the glTF does not say that it is of version 2; export it as glTF 2.0.');
  const required = Array.isArray(extensionsRequired) ? extensionsRequired : [];
  if (required.includes(draco)) throw dracoRefused();
  if (required.includes(instancing))
    throw new ScanError(
      'unsupported',
      'the glTF repeats meshes by instancing, which is not read; export plain meshes.',
    );
}

const dracoRefused = (): ScanError =>
  new ScanError(
    'unsupported',
    'the glTF is compressed with Draco, which is not read; export it uncompressed or with meshopt.',
  );

function gather(file: GltfFile, views: Views): Surface {
  const faces = new FaceGatherer(0);
  let coordinates = new Float64Array(0);
  let used = 0;
  for (const { mesh, worldFromMesh } of placedMeshes(file.document)) {
    const firstOf = new Map<number, { first: number; count: number }>();
    for (const primitive of primitivesOf(file.document, mesh)) {
      const position = whole(primitive.attributes?.POSITION, 'POSITION');
      let place = firstOf.get(position);
      if (!place) {
        const points = readAccessor(file.document, views, position, 'VEC3');
        if (used + points.length > coordinates.length) coordinates = grownFloat64(coordinates, used + points.length);
        transform(points, worldFromMesh, coordinates, used);
        place = { first: used / 3, count: points.length / 3 };
        firstOf.set(position, place);
        used += points.length;
        checkSize(used / 3, 0);
      }
      views.budget.steps(primitiveSteps);
      const corners = cornersOf(file.document, views, primitive, place.count);
      // A strip makes a triangle of three corners in float64 and again in whole numbers for each that it lists.
      views.budget.bytes(corners.length * 12);
      addTriangles(faces, corners, place.first, primitive.mode ?? mode.triangles, determinant(worldFromMesh) < 0);
      checkSize(0, faces.used / 3);
    }
  }
  return { coordinates: coordinates.slice(0, used), triangles: faces.result().triangles };
}

/** The primitives of a mesh that have positions and make triangles. */
function primitivesOf(document: GltfDocument, mesh: number): GltfPrimitive[] {
  const primitives = document.meshes?.[mesh]?.primitives;
  if (!Array.isArray(primitives)) throw malformedGltf('a mesh is missing');
  const out: GltfPrimitive[] = [];
  for (const primitive of primitives as readonly GltfPrimitive[]) {
    if (typeof primitive !== 'object' || primitive === null) throw malformedGltf('a primitive');
    const kind = whole(primitive.mode, 'mode', mode.triangles);
    if (primitive.attributes?.POSITION === undefined || kind < mode.triangles || kind > mode.fan) continue;
    const view = document.accessors?.[primitive.attributes.POSITION]?.bufferView;
    if (primitive.extensions?.[draco] && view === undefined) throw dracoRefused();
    out.push(primitive);
  }
  return out;
}

function transform(points: Float64Array, m: Matrix4, out: Float64Array, at: number): void {
  for (let i = 0; i < points.length; i += 3) {
    const x = points[i];
    const y = points[i + 1];
    const z = points[i + 2];
    out[at + i] = m[0] * x + m[4] * y + m[8] * z + m[12];
    out[at + i + 1] = m[1] * x + m[5] * y + m[9] * z + m[13];
    out[at + i + 2] = m[2] * x + m[6] * y + m[10] * z + m[14];
  }
}

/** Corner numbers within the primitive's own positions. */
function cornersOf(document: GltfDocument, views: Views, primitive: GltfPrimitive, count: number): Float64Array {
  if (primitive.indices === undefined) views.budget.bytes(count * 8);
  if (primitive.indices === undefined) return Float64Array.from({ length: count }, (_, i) => i);
  const corners = readAccessor(document, views, primitive.indices, 'SCALAR');
  for (const corner of corners)
    if (!(corner >= 0 && corner < count)) throw malformedGltf('a face names a vertex that does not exist');
  return corners;
}

function addTriangles(
  faces: FaceGatherer,
  corners: Float64Array,
  first: number,
  kind: number,
  mirrored: boolean,
): void {
  const add = (i: number, j: number, k: number) => {
    const a = first + corners[i];
    const b = first + corners[j];
    const c = first + corners[k];
    if (mirrored) faces.triangle(a, c, b);
    else faces.triangle(a, b, c);
  };
  const { length } = corners;
  if (kind === mode.triangles) for (let i = 0; i + 2 < length; i += 3) add(i, i + 1, i + 2);
  else if (kind === mode.fan) for (let i = 1; i + 1 < length; i++) add(0, i, i + 1);
  else for (let i = 0; i + 2 < length; i++) i % 2 === 0 ? add(i, i + 1, i + 2) : add(i + 1, i, i + 2);
}
