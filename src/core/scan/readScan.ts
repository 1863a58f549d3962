import { partOf, report, type Watch } from '../geometry/index.ts';
import { admitted, type Place } from './admission/admitted.ts';
import { Budget } from './admission/budget.ts';
import { fromUtf16 } from './admission/utf16.ts';
import { ScanError } from './error.ts';
import { readGltf } from './gltf/gltf.ts';
import { readHeightMap } from './height/image.ts';
import { readObj } from './obj/obj.ts';
import { readPly } from './ply/ply.ts';
import { type Container, recognise } from './recognise.ts';
import { mend } from './repair/mend.ts';
import { sha256 } from './sha256.ts';
import { saysSimulated } from './simulated.ts';
import { isExactBinaryStl } from './stl/recogniseStl.ts';
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
  /** What the surface was read from: the file, or the one in it that holds the scan. */
  readonly content: Uint8Array;
}

/** What goes with a file on its way in. */
interface Entrance {
  readonly options: ReadOptions & ReadExtras;
  readonly budget: Budget;
  /** Zips opened on the way here. */
  readonly depth: number;
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
  report(watch, 0, 'reading the file');
  return admitted(name, async (place) => {
    const beside = Object.values(options.files ?? {}).reduce((sum, file) => sum + file.length, 0);
    const entrance = { options, budget: new Budget(bytes.length + beside), depth: 0 };
    const { format, surface, content } = await parse(bytes, name, entrance, place);
    place('its surface');
    const { mesh, repairs, totals } = mend(surface, partOf(watch, 0.4, 0.9));
    report(watch, 0.9, 'taking the checksum');
    return {
      name,
      format,
      sha256: await (options.sha256 ?? sha256)(bytes),
      ...(saysSimulated(content, format) && { simulated: true }),
      mesh,
      ...unitOf(format, options),
      repairs,
      vertices: mesh.positions.length / 3,
      triangles: mesh.triangles.length / 3,
      totals,
    };
  });
}

/** The words for what is read, where a reader fails. */
const partWords: Readonly<Record<Container, string>> = {
  ply: 'PLY',
  stl: 'STL',
  obj: 'OBJ',
  gltf: 'glTF',
  png: 'PNG',
  tiff: 'TIFF',
  zip: 'zip container',
};

async function parse(file: Uint8Array, name: string, entrance: Entrance, place: Place): Promise<Parsed> {
  const { options, budget } = entrance;
  // Some systems save text with two bytes a letter; a binary STL whose length is right is never text.
  const content = isExactBinaryStl(file) ? file : (fromUtf16(file) ?? file);
  const format = recognise(content, name);
  place(`its ${partWords[format]}`);
  switch (format) {
    case 'ply':
      return { format, content, surface: readPly(content) };
    case 'stl':
      return { format, content, surface: readStl(content) };
    case 'obj':
      return { format, content, surface: readObj(content) };
    case 'gltf':
      return { format, content, surface: await readGltf(content, options.files ?? {}, budget) };
    case 'png':
    case 'tiff':
      return { format, content, surface: readHeightMap(content, format, options, budget) };
    case 'zip':
      return parseZip(content, entrance, place);
  }
}

/** File endings that can be the scan of a zip; what else lies there may belong to it (buffers, materials, pictures). */
const scanEnding = /\.(ply|stl|obj|gltf|glb|x3p|png|tiff?)$/i;
const heightEnding = /\.(png|tiff?)$/i;

/** An X3P container, or one scan file that somebody zipped. */
async function parseZip(bytes: Uint8Array, entrance: Entrance, place: Place): Promise<Parsed> {
  const { options, budget, depth } = entrance;
  const names = namesInZip(bytes);
  const mainXml = mainXmlOf(names);
  if (mainXml !== undefined) {
    place('its X3P');
    return { format: 'x3p', content: bytes, surface: readX3p(bytes, names, mainXml, budget) };
  }
  const all = names.filter((name) => scanEnding.test(name));
  // Pictures beside a mesh are its textures.
  const meshes = all.filter((name) => !heightEnding.test(name));
  const scans = meshes.length > 0 ? meshes : all;
  if (scans.length === 0) throw new ScanError('unsupported', 'the zip file holds no scan; give the scan itself.');
  if (scans.length > 1 || depth > 0)
    throw new ScanError('unsupported', `the zip file holds several scans or another zip; unpack it and give one file.`);
  const files = unpack(bytes, /\.gltf$/i.test(scans[0]) ? names : scans, budget);
  const inside = { ...entrance, options: { ...options, files: { ...options.files, ...files } }, depth: depth + 1 };
  return parse(files[scans[0]], baseName(scans[0]), inside, place);
}

/** X3P is metres and always meant so; glTF is metres but often is not; a height map has the unit of what was stated. */
function unitOf(format: RawScan['format'], options: ReadOptions): { unitInFile?: Unit; unitTrusted: boolean } {
  if (format === 'x3p') return { unitInFile: 'm', unitTrusted: true };
  if (format === 'gltf') return { unitInFile: 'm', unitTrusted: false };
  if (format === 'png' || format === 'tiff') return { unitInFile: options.unit ?? 'mm', unitTrusted: true };
  return { unitTrusted: false };
}
