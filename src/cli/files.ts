import { createHash } from 'node:crypto';
import { readFileSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, join, sep } from 'node:path';
import type { ScanInput } from '../core/pipeline.ts';
import { refusedByLength, ScanError, sideFilesOf, type Unit } from '../core/scan/index.ts';
import { UsageError } from './errors.ts';
import { withManifest } from './manifest.ts';
import { kindFrom, numberFrom, numbersFrom, oneOf, type Role, unitFrom, type Values, valueFor } from './options.ts';

const largestFile = 2 ** 31 - 1;

/** Every file that was read so far; none of them may be written over. */
export const filesRead = new Set<string>();

/** Reads a file's bytes; a folder, a missing or an unreadable file is a ScanError with one sentence. */
export function readBytes(path: string): Uint8Array {
  const name = basename(path);
  const stat = statSync(path, { throwIfNoEntry: false });
  if (!stat) throw new ScanError('empty', `${path}: there is no such file; check the name.`);
  if (stat.isDirectory()) throw new ScanError('unsupported', `${path} is a folder; give one scan file.`);
  if (!stat.isFile()) throw new ScanError('unsupported', `${path} is not an ordinary file; give a scan file.`);
  if (stat.size > largestFile) throw new ScanError('tooLarge', `${name}: larger than 2 GB; export a reduced surface.`);
  const refused = refusedByLength(name, stat.size);
  if (refused) throw new ScanError(refused.code, `${name}: ${refused.message}`);
  filesRead.add(path);
  try {
    return readFileSync(path);
  } catch {
    throw new ScanError('unsupported', `${name}: the file cannot be opened; check its permissions.`);
  }
}

/** The JSON of a small file that an option names; anything else is wrong use. */
export function readJson(path: string, option: string): unknown {
  try {
    return JSON.parse(new TextDecoder().decode(readBytes(path)));
  } catch (error) {
    if (error instanceof ScanError) throw new UsageError(`${option} ${error.message}`);
    throw new UsageError(`${option} ${path}: the file is no JSON.`);
  }
}

const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** A scan file and what the options, or its row of a manifest, state about it. Buffers that a .gltf names are read from beside it. */
export function scanInput(path: string, options: Values, role: Role = 'reference'): ScanInput {
  const values = withManifest(path, options);
  const text = (name: string): string | undefined => valueFor(values[name], role);
  const bytes = readBytes(path);
  const unit = unitFrom(text('unit'));
  return {
    name: basename(path),
    bytes,
    sha256,
    files: buffersBeside(path, bytes),
    unit,
    kind: kindFrom(text('kind')),
    material: text('material'),
    scaleUncertaintyPercent: numberFrom(text('scale-uncertainty'), '--scale-uncertainty'),
    toward: numbersFrom(
      typeof values['face-toward'] === 'string' ? values['face-toward'] : undefined,
      3,
      '--face-toward',
    ) as ScanInput['toward'],
    upDeg: numberFrom(text('up'), '--up'),
    mirrored: oneOf(text('mirrored'), ['yes', 'no'], '--mirrored') === 'yes',
    pixelSize: lengthFrom(text('pixel-size'), '--pixel-size', unit),
    heightStep: lengthFrom(text('height-step'), '--height-step', unit),
  };
}

/** A length without its unit, which is the one of --unit, or mm. */
const lengthFrom = (value: string | undefined, option: string, unit: Unit = 'mm'): number | undefined =>
  numberFrom(value, option, `give a number of ${unit} without the unit, such as 0.06`);

/**
 * The files that a .gltf names, by the names that it gives them. Only files in the glTF's own folder and below it are
 * read: a name that leads out of it is refused, a link that does is taken as missing. One that is missing is refused later.
 */
function buffersBeside(path: string, bytes: Uint8Array): Record<string, Uint8Array> {
  if (!path.toLowerCase().endsWith('.gltf') || bytes.length === 0) return {};
  const folder = realpathSync(dirname(path));
  const found: Record<string, Uint8Array> = {};
  try {
    for (const name of sideFilesOf(bytes)) {
      const file = join(folder, name);
      if (statSync(file, { throwIfNoEntry: false })?.isFile() && isBelow(folder, realpathSync(file)))
        found[name] = readBytes(file);
    }
  } catch (error) {
    if (error instanceof ScanError) throw new ScanError(error.code, `${basename(path)}: ${error.message}`);
    throw error;
  }
  return found;
}

const isBelow = (folder: string, file: string): boolean =>
  file.startsWith(folder.endsWith(sep) ? folder : folder + sep);
