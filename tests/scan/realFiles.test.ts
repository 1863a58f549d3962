import { unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { type RawScan, readScan, ScanError } from '../../src/core/scan/index.ts';
import { needing, realData, realFiles } from '../realData.ts';
import { asSet, cornersInFile, largestDifference } from './surfaces.ts';

const scale = { pixelSize: 1, heightStep: 1 };

/** Reads a file of the test data, with the buffers that lie beside it. */
async function read(path: string): Promise<RawScan> {
  const bytes = realData(path);
  if (!bytes) throw new Error(`${path} is not among the test data.`);
  const folder = path.slice(0, path.lastIndexOf('/') + 1);
  const beside = /\.gl(tf|b)$/.test(path) ? realFiles(folder).filter((name) => name.endsWith('.bin')) : [];
  const files = Object.fromEntries(
    beside.map((name) => [name.slice(folder.length), realData(name) ?? new Uint8Array(0)]),
  );
  return readScan(bytes, path, { ...scale, files, sha256: () => '' });
}

const outcome = (path: string): Promise<RawScan | ScanError> =>
  read(path).catch((error: unknown) => {
    if (error instanceof ScanError) return error;
    throw error;
  });

const having = (path: string) => it.skipIf(!realData(path));

const folders = ['formats', 'x3p', 'height', 'range-scans', 'same-tool', 'pairs'];
const scans = folders
  .flatMap(realFiles)
  .filter((path) => /\.(ply|stl|obj|gltf|glb|x3p|png|zip)$/i.test(path) && !path.includes('gltf_validator'));

/** Files without a surface, or broken in a way that cannot be mended, and why they are refused. */
const refused: Record<string, string> = {
  'x3p/ISO5436-sample2.x3p': 'noTriangles',
  'formats/trimesh_models/empty_nodes.glb': 'noTriangles',
  'formats/trimesh_models/face_in_group_name.obj': 'noTriangles',
  'formats/trimesh_models/point_uv.ply.zip': 'noTriangles',
  'formats/stl_models_npm/faceless.ascii.stl': 'noTriangles',
  // Bytes that a program took for text and wrote back.
  'formats/stl_models_npm/multiWordName.bin.stl': 'malformed',
  'formats/heritage_preservation_samples/cockatoo-gltf-2.0_separated-unmodified-valid.gltf': 'fileMissing',
  'formats/heritage_preservation_samples/cube-gltf-2.0_separated-asset_key_line_deleted-invalid.gltf': 'malformed',
  'formats/heritage_preservation_samples/cube-gltf-2.0_separated-asset_key_renamed_to_stage-invalid.gltf':
    'unsupported',
  'formats/heritage_preservation_samples/minimal-gltf-2.0_separated-asset_key_line_deleted-invalid.gltf': 'malformed',
  'formats/heritage_preservation_samples/minimal-gltf-2.0_separated-asset_key_renamed_to_stage-invalid.gltf':
    'unsupported',
  'formats/heritage_preservation_samples/cube-stl-1.0_ascii-endsolid_line_deleted-invalid.stl': 'truncated',
  'formats/heritage_preservation_samples/cube-stl-1.0_ascii-first_vertex_line_deleted-invalid.stl': 'malformed',
  'formats/heritage_preservation_samples/cube-stl-1.0_binary-byte_at_position_85_deleted-invalid.stl': 'truncated',
};
const expectedCode = (path: string): string | undefined =>
  refused[path] ?? (/\/(empty|minimal-|points_)/.test(path) ? 'noTriangles' : undefined);

describe.skipIf(scans.length === 0)(needing('formats', 'every real scan'), () => {
  it.each(scans)('%s', { timeout: 60_000 }, async (path) => {
    const result = await outcome(path);
    const code = expectedCode(path);
    if (code) {
      expect(result).toBeInstanceOf(ScanError);
      expect(result).toMatchObject({ code });
      expect((result as ScanError).message).toMatch(/^[^\n]{20,280}\.$/);
    } else expect((result as RawScan).triangles, (result as ScanError).message).toBeGreaterThan(0);
  });
});

/** The same triangles between the same vertices, to 10⁻⁵ of the surface's size. */
function expectTwins(one: RawScan, other: RawScan): void {
  expect(other.mesh.triangles).toEqual(one.mesh.triangles);
  const size = one.mesh.positions.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  expect(largestDifference(cornersInFile(one.mesh), cornersInFile(other.mesh)) / size).toBeLessThan(1e-5);
}

describe('twins', () => {
  const pairs = [
    ['formats/numpy_stl/stl_ascii__Cube.stl', 'formats/numpy_stl/stl_binary__Cube.stl'],
    ['formats/numpy_stl/stl_ascii__Cube.stl', 'formats/numpy_stl/stl_binary__CubeInvalidUnicode.stl'],
    ['formats/numpy_stl/stl_ascii__HalfDonut.stl', 'formats/numpy_stl/stl_binary__HalfDonut.stl'],
    ['formats/numpy_stl/stl_ascii__Moon.stl', 'formats/numpy_stl/stl_binary__Moon.stl'],
    ['formats/numpy_stl/stl_ascii__Moon.stl', 'formats/numpy_stl/stl_ascii__Moon_Chinese.stl'],
    ['formats/numpy_stl/stl_ascii__Star.stl', 'formats/numpy_stl/stl_binary__Star.stl'],
    ['formats/numpy_stl/stl_ascii__Star.stl', 'formats/numpy_stl/stl_binary__StarWithEmptyHeader.stl'],
    ['formats/stl_models_npm/cube.ascii.stl', 'formats/stl_models_npm/cube.bin.stl'],
    ['formats/stl_models_npm/tetrahedron.ascii.stl', 'formats/stl_models_npm/tetrahedron.bin.stl'],
    ['formats/stl_models_npm/tetrahedron.ascii.stl', 'formats/stl_models_npm/tetrahedron.min.ascii.stl'],
    ['formats/stl_models_npm/tetrahedron.ascii.stl', 'formats/stl_models_npm/tetrahedronMinusZero.bin.stl'],
    ['formats/stl_models_npm/tetrahedronIrregular.ascii.stl', 'formats/stl_models_npm/tetrahedronIrregular.bin.stl'],
    ['formats/stl_models_npm/triangle.ascii.stl', 'formats/stl_models_npm/triangle.bin.stl'],
    ['formats/stl_models_npm/unitCube.ascii.stl', 'formats/stl_models_npm/unitCube.binary.stl'],
    ['formats/tinyply/tinyply_icosahedron.ply', 'formats/tinyply/tinyply_icosahedron_ascii.ply'],
    ['formats/trimesh_models/fuze.ply', 'formats/trimesh_models/fuze_ascii.ply'],
    ['x3p/ISO5436-sample1.x3p', 'x3p/ISO5436-sample1_bin.x3p'],
    ['x3p/ISO5436-sample4.x3p', 'x3p/ISO5436-sample4_bin.x3p'],
  ];
  it.skipIf(!realData(pairs[0][0])).each(pairs)(needing('formats', '%s = %s'), async (one, other) =>
    expectTwins(await read(one), await read(other)),
  );
});

describe('values that others have published', () => {
  having('x3p/x3p-2.x3p')(
    needing('x3p/x3p-2.x3p', 'size and Sq of an anisotropic X3P (given with the file)'),
    async () => {
      const { mesh, unitInFile } = await read('x3p/x3p-2.x3p');
      const along = (axis: number) => mesh.positions.filter((_, i) => i % 3 === axis);
      const [x, y, z] = [0, 1, 2].map(along);
      const extent = (values: Float32Array) =>
        values.reduce((m, v) => Math.max(m, v), -1) - values.reduce((m, v) => Math.min(m, v), 1);
      expect(unitInFile).toBe('m');
      // The stated size counts whole cells: one pitch more than from the first point to the last.
      expect((extent(x) * 650) / 649 / 8.29767313942749e-5).toBeCloseTo(1, 6);
      expect((extent(y) * 650) / 649 / 2.044784737930349e-4).toBeCloseTo(1, 6);
      const heights = Float64Array.from(z, (value) => value + mesh.offset[2]);
      const mean = heights.reduce((sum, value) => sum + value, 0) / heights.length;
      const sq = Math.sqrt(heights.reduce((sum, value) => sum + (value - mean) ** 2, 0) / heights.length);
      expect(sq / 7.728033273597876e-8).toBeCloseTo(1, 6);
    },
  );

  having('x3p/pyramid.x3p')(
    needing('x3p/pyramid.x3p', 'the pyramid is the same surface as X3P and as STL, one cell apart'),
    async () => {
      const stl = await read('x3p/pyramid.stl');
      const x3p = await read('x3p/pyramid.x3p');
      const shifted = {
        ...x3p.mesh,
        offset: [x3p.mesh.offset[0] + 1, x3p.mesh.offset[1] + 1, x3p.mesh.offset[2]] as const,
      };
      expect(asSet(cornersInFile(shifted), 5)).toEqual(asSet(cornersInFile(stl.mesh), 5));
    },
  );

  having('x3p/ISO5436-sample4.x3p')(
    needing(
      'x3p/ISO5436-sample4.x3p',
      'heights as int16 with increment and offset are those of the same surface as float64',
    ),
    async () => {
      const whole = await read('x3p/ISO5436-sample4.x3p');
      const float = await read('x3p/ISO5436-sample1.x3p');
      expect(whole.mesh.triangles).toEqual(float.mesh.triangles);
      // Rounded to the increment of 0.001.
      expect(largestDifference(cornersInFile(whole.mesh), cornersInFile(float.mesh))).toBeLessThan(0.0006);
    },
  );

  const encodings = [
    'meshopt_c.glb',
    'meshopt_cc.glb',
    'meshopt_fallback.glb',
    'meshopt_khr.glb',
    'noq.glb',
    'quant.glb',
    'quant_normalized.glb',
  ];
  describe.each(encodings)('bunny_res2_%s', (encoding) => {
    const path = `formats/meshopt_quantized/bunny_res2_${encoding}`;
    having(path)(needing(path, 'has 16 301 triangles, within 10⁻⁵ m of the OBJ'), async () => {
      const plain = await read('formats/meshopt_quantized/bunny_res2.obj');
      const scan = await read(path);
      const { duplicate, degenerate } = scan.repairs;
      expect(scan.triangles + duplicate + degenerate).toBe(16_301);
      expect(plain.triangles + plain.repairs.duplicate + plain.repairs.degenerate).toBe(16_301);
      expect(farthest(placesOf(scan), placesOf(plain))).toBeLessThan(1e-5);
    });
  });

  having('height/jacksboro_fault_dem_u16.png')(
    needing('height', 'the terrain as PNG has the heights of the same terrain as a number file'),
    async () => {
      const { mesh } = await read('height/jacksboro_fault_dem_u16.png');
      const { columns, rows, heights } = heightsOfNpz(realData('height/jacksboro_fault_dem.npz') ?? new Uint8Array(0));
      expect(mesh.positions.length / 3).toBe(columns * rows);
      const expected = Float64Array.from({ length: heights.length * 3 }, (_, k) => {
        const i = Math.floor(k / 3);
        return [i % columns, -Math.floor(i / columns), heights[i]][k % 3];
      });
      const places = Float64Array.from(mesh.positions, (value, k) => value + mesh.offset[k % 3]);
      expect(largestDifference(places, expected)).toBe(0);
    },
  );

  const pairs = ['cast-of-impression', 'recut-by-hand', 'same-whole-object', 'stock-pattern', 'struck-through'];
  it.skipIf(!realData('pairs/stock-pattern/subject.ply')).each(pairs)(
    needing(
      'pairs',
      'pairs/%s: the stray pieces are the debris that its maker floated beside the seal, all of it and nothing else',
    ),
    async (pair) => {
      const scan = await read(`pairs/${pair}/subject.ply`);
      const mask = realData(`pairs/${pair}/mask.u16`) ?? new Uint8Array(0);
      const { maskBits } = JSON.parse(
        new TextDecoder().decode(realData(`pairs/${pair}/truth.json`) ?? new Uint8Array(0)),
      );
      const bits = new Uint16Array(mask.buffer, mask.byteOffset, mask.length / 2);
      expect(bits.length).toBe(scan.vertices);
      const used = new Uint8Array(scan.vertices);
      for (const corner of scan.mesh.triangles) used[corner] = 1;
      expect(bits.every((value, vertex) => ((value & maskBits.debris) !== 0) === (used[vertex] === 0))).toBe(true);
      expect(scan.repairs).toMatchObject({ flipped: 0, duplicate: 0, degenerate: 0, unreferenced: 0 });
    },
  );
});

describe('range scans of one object', () => {
  having('range-scans/bun.conf')(
    needing('range-scans', 'lie on the fused mesh at their published poses, and face the same way'),
    { timeout: 120_000 },
    async () => {
      const fused = await read('range-scans/bun_zipper_res2.ply');
      const poses = new TextDecoder().decode(realData('range-scans/bun.conf') ?? new Uint8Array(0));
      const target = new Nearest(fused);
      for (const name of ['bun000.ply', 'bun045.ply', 'bun090.ply', 'bun315.ply']) {
        const scan = await read(`range-scans/${name}`);
        expect(scan.triangles).toBeGreaterThan(1.7 * scan.vertices);
        const numbers = new RegExp(`bmesh ${name} (.*)`).exec(poses)?.[1].trim().split(/\s+/).map(Number) ?? [];
        const world = worldFromScan(numbers);
        const distances: number[] = [];
        let alike = 0;
        for (let t = 0; t < scan.mesh.triangles.length; t += 3 * 97) {
          const [a, b, c] = [0, 1, 2].map((k) =>
            world(
              [0, 1, 2].map(
                (axis) => scan.mesh.positions[scan.mesh.triangles[t + k] * 3 + axis] + scan.mesh.offset[axis],
              ),
            ),
          );
          const { distance, normal } = target.at(a);
          distances.push(distance);
          const own = crossOf(a, b, c);
          alike += own[0] * normal[0] + own[1] * normal[1] + own[2] * normal[2] > 0 ? 1 : 0;
        }
        distances.sort((p, q) => p - q);
        // The fused mesh has a vertex every 2 mm.
        expect(distances[Math.floor(distances.length / 2)]).toBeLessThan(0.002);
        expect(alike / distances.length).toBeGreaterThan(0.95);
      }
    },
  );
});

/** World = R(q)ᵀ v + t, with q = (x, y, z, w) behind t: as published with the scans. */
function worldFromScan([tx, ty, tz, x, y, z, w]: readonly number[]): (v: readonly number[]) => number[] {
  const rows = [
    [1 - 2 * (y * y + z * z), 2 * (x * y + z * w), 2 * (x * z - y * w)],
    [2 * (x * y - z * w), 1 - 2 * (x * x + z * z), 2 * (y * z + x * w)],
    [2 * (x * z + y * w), 2 * (y * z - x * w), 1 - 2 * (x * x + y * y)],
  ];
  return (v) => rows.map((row, i) => row[0] * v[0] + row[1] * v[1] + row[2] * v[2] + [tx, ty, tz][i]);
}

function crossOf(a: readonly number[], b: readonly number[], c: readonly number[]): number[] {
  const u = b.map((value, i) => value - a[i]);
  const v = c.map((value, i) => value - a[i]);
  return [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
}

/** The closest corner of a mesh by brute force, with the normal of a triangle there. */
class Nearest {
  private readonly corners: Float64Array;

  constructor(scan: RawScan) {
    this.corners = cornersInFile(scan.mesh);
  }

  at(p: readonly number[]): { distance: number; normal: number[] } {
    const { corners } = this;
    let best = Number.POSITIVE_INFINITY;
    let where = 0;
    for (let i = 0; i < corners.length; i += 9) {
      const d = (corners[i] - p[0]) ** 2 + (corners[i + 1] - p[1]) ** 2 + (corners[i + 2] - p[2]) ** 2;
      if (d < best) {
        best = d;
        where = i;
      }
    }
    const at = (k: number) => [...corners.subarray(where + k, where + k + 3)];
    return { distance: Math.sqrt(best), normal: crossOf(at(0), at(3), at(6)) };
  }
}

/** Places of the vertices that triangles use. */
function placesOf({ mesh }: RawScan): number[][] {
  const used = new Set(mesh.triangles);
  return [...used].map((vertex) => [0, 1, 2].map((axis) => mesh.positions[vertex * 3 + axis] + mesh.offset[axis]));
}

/** The largest distance of a point of `from` to the closest of `to`, through a grid of 1 mm cells. */
function farthest(from: number[][], to: number[][]): number {
  const cells = new Map<string, number[][]>();
  const cellOf = (p: readonly number[]) => p.map((value) => Math.floor(value / 0.001));
  for (const p of to) {
    const key = cellOf(p).join();
    cells.set(key, [...(cells.get(key) ?? []), p]);
  }
  let largest = 0;
  for (const p of from) {
    const [x, y, z] = cellOf(p);
    let best = Number.POSITIVE_INFINITY;
    for (let i = 0; i < 27; i++)
      for (const q of cells.get([x + (i % 3) - 1, y + (Math.floor(i / 3) % 3) - 1, z + Math.floor(i / 9) - 1].join()) ??
        [])
        best = Math.min(best, Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]));
    largest = Math.max(largest, best);
  }
  return largest;
}

/** The elevation array of the zipped number file: a text header that ends in a line end, then the values. */
function heightsOfNpz(bytes: Uint8Array): { columns: number; rows: number; heights: Float64Array } {
  const files = unzipSync(bytes);
  const array = files['elevation.npy'];
  const view = new DataView(array.buffer, array.byteOffset, array.byteLength);
  const start = 10 + view.getUint16(8, true);
  const header = new TextDecoder('latin1').decode(array.subarray(10, start));
  const [rows, columns] = /\((\d+), (\d+)\)/.exec(header)?.slice(1).map(Number) ?? [0, 0];
  const kind = /'descr': '[<|](\w)(\d)'/.exec(header);
  const size = Number(kind?.[2]);
  const value = (at: number) =>
    kind?.[1] === 'f' ? view.getFloat64(at, true) : size === 2 ? view.getInt16(at, true) : view.getInt32(at, true);
  return { columns, rows, heights: Float64Array.from({ length: rows * columns }, (_, i) => value(start + i * size)) };
}
