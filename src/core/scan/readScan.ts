import { partOf, report, type Watch } from '../geometry/index.ts';
import { ScanError } from './error.ts';
import { readGltf } from './gltf/gltf.ts';
import { readHeightMap } from './height/image.ts';
import { readObj } from './obj/obj.ts';
import { readPly } from './ply/ply.ts';
import { recognise } from './recognise.ts';
import { mend } from './repair/mend.ts';
import { sha256 } from './sha256.ts';
import { saysSimulated } from './simulated.ts';
import { readStl } from './stl/stl.ts';
import type { Surface } from './surface.ts';
import type { RawScan, ReadOptions, Unit } from './types.ts';
import { mainXmlOf, readX3p } from './x3p/x3p.ts';
import { baseName, namesInZip, unpack } from './zip.ts';

/** What the caller can hand in beside the scan's own bytes. */
export interface ReadExtras {
  /** Buffers that a .gltf names, by file name. Nothing is fetched. */
  readonly files?: Readonly<Record<string, Uint8Array>>;
  /** SHA-256 as lower-case hex; Node and browsers have one many times as fast as the one that is used otherwise. */
  readonly sha256?: (bytes: Uint8Array) => string | Promise<string>;
}

interface Parsed {
  readonly format: RawScan['format'];
  readonly surface: Surface;
}

/**
 * Reads a scan file of any supported format and mends it. Coordinates stay in the file's own unit and are centred;
 * vertices keep the file's order (STL corners are joined). `bytes` is not changed.
 * Throws `ScanError` for a file that cannot be used, in one sentence that begins with its name.
 */
export async function readScan(
  bytes: Uint8Array,
  name: string,
  options: ReadOptions & ReadExtras = {},
  watch: Watch = {},
): Promise<RawScan> {
  try {
    report(watch, 0, 'reading the file');
    const { format, surface } = await parse(bytes, name, options, 0);
    const { mesh, repairs } = mend(surface, partOf(watch, 0.4, 0.9));
    report(watch, 0.9, 'taking the checksum');
    return {
      name,
      format,
      sha256: await (options.sha256 ?? sha256)(bytes),
      ...(saysSimulated(bytes, format) && { simulated: true }),
      mesh,
      ...unitOf(format, options),
      repairs,
      vertices: mesh.positions.length / 3,
      triangles: mesh.triangles.length / 3,
    };
  } catch (error) {
    throw named(error, name);
  }
}

async function parse(
  bytes: Uint8Array,
  name: string,
  options: ReadOptions & ReadExtras,
  depth: number,
): Promise<Parsed> {
  const format = recognise(bytes, name);
  switch (format) {
    case 'ply':
      return { format, surface: readPly(bytes) };
    case 'stl':
      return { format, surface: readStl(bytes) };
    case 'obj':
      return { format, surface: readObj(bytes) };
    case 'gltf':
      return { format, surface: await readGltf(bytes, options.files ?? {}) };
    case 'png':
    case 'tiff':
      return { format, surface: readHeightMap(bytes, format, options) };
    case 'zip':
      return parseZip(bytes, options, depth);
  }
}

/** File endings that can be the scan of a zip; what else lies there may belong to it (buffers, materials, pictures). */
const scanEnding = /\.(ply|stl|obj|gltf|glb|x3p|png|tiff?)$/i;
const heightEnding = /\.(png|tiff?)$/i;

/** An X3P container, or one scan file that somebody zipped. */
async function parseZip(bytes: Uint8Array, options: ReadOptions & ReadExtras, depth: number): Promise<Parsed> {
  const names = namesInZip(bytes);
  const mainXml = mainXmlOf(names);
  if (mainXml !== undefined) return { format: 'x3p', surface: readX3p(bytes, names, mainXml) };
  const all = names.filter((name) => scanEnding.test(name));
  // Pictures beside a mesh are its textures.
  const meshes = all.filter((name) => !heightEnding.test(name));
  const scans = meshes.length > 0 ? meshes : all;
  if (scans.length === 0) throw new ScanError('unsupported', 'the zip file holds no scan; give the scan itself.');
  if (scans.length > 1 || depth > 0)
    throw new ScanError('unsupported', `the zip file holds several scans or another zip; unpack it and give one file.`);
  const files = unpack(bytes, /\.gltf$/i.test(scans[0]) ? names : scans);
  return parse(files[scans[0]], baseName(scans[0]), { ...options, files: { ...options.files, ...files } }, depth + 1);
}

/** X3P is metres and always meant so; glTF is metres but often is not; a height map has the unit of what was stated. */
function unitOf(format: RawScan['format'], options: ReadOptions): { unitInFile?: Unit; unitTrusted: boolean } {
  if (format === 'x3p') return { unitInFile: 'm', unitTrusted: true };
  if (format === 'gltf') return { unitInFile: 'm', unitTrusted: false };
  if (format === 'png' || format === 'tiff') return { unitInFile: options.unit ?? 'mm', unitTrusted: true };
  return { unitTrusted: false };
}

/** The error with the file's name before it; lack of memory becomes a refusal. */
function named(error: unknown, name: string): unknown {
  if (error instanceof ScanError) return new ScanError(error.code, `${name}: ${error.message}`, error.unitChoice);
  if (error instanceof RangeError && /allocation|array length|buffer length/i.test(error.message))
    return new ScanError('tooLarge', `${name}: the scan needs more memory than there is; reduce it and give it again.`);
  return error;
}
