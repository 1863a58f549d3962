import { parsedJson, Refusal } from '../../../src/app/admission/admit.ts';
import { admitSession } from '../../../src/app/admission/session.ts';
import { type Unpacked, unpackComparison } from '../../../src/app/saved/unpack.ts';
import { seededRandom } from '../../../src/core/geometry/index.ts';
import { type RawScan, readScan, ScanError, sideFilesOf } from '../../../src/core/scan/index.ts';
import { pictured } from '../../app/pictured.ts';
import { mutated } from './mutate.ts';
import { type Seed, savedNames } from './seeds.ts';

const stated = { pixelSize: 0.1, heightStep: 0.01, sha256: () => '' } as const;

/** What one mutation came to: read, the code of its refusal, or in words what must not happen. */
export type Outcome =
  | { readonly is: 'read' | 'refused'; readonly code: string }
  | { readonly is: 'fault'; readonly words: string };

/** The file of one trial: the same for the same seed and number, whatever was run before. */
export function fileOf(seeds: readonly Seed[], seed: number, trial: number): Seed {
  const random = seededRandom((Math.imul(seed, 0x9e3779b1) ^ Math.imul(trial + 1, 0x85ebca6b)) >>> 0);
  const from = seeds[trial % seeds.length];
  return { ...from, bytes: mutated(from.name, from.bytes, random) };
}

/** Reads one file through the one door and holds what comes out against what is promised. */
export async function tried(seed: Seed): Promise<Outcome> {
  if (seed.name === savedNames[0]) return triedSaved(seed.bytes);
  if (seed.name === savedNames[1]) return triedSession(seed.bytes);
  return triedScan(seed);
}

async function triedScan({ name, bytes, files }: Seed): Promise<Outcome> {
  try {
    if (name.endsWith('.gltf')) checkNames(bytes);
    const scan = await readScan(bytes, name, { ...stated, files });
    const fault = faultOf(scan);
    return fault ? { is: 'fault', words: fault } : { is: 'read', code: scan.format };
  } catch (error) {
    if (!(error instanceof ScanError)) return { is: 'fault', words: `threw ${String(error)}` };
    // The wrapping catches what nobody foresaw: the user has a sentence, the reader has a fault.
    if (error.code === 'damaged') return { is: 'fault', words: error.message };
    if (!/^[^\n]{10,400}\.$/.test(error.message)) return { is: 'fault', words: `no sentence: ${error.message}` };
    return { is: 'refused', code: error.code };
  }
}

/** No name of a side file leads out of the folder. */
function checkNames(bytes: Uint8Array): void {
  for (const name of sideFilesOf(bytes))
    if (name.startsWith('/') || name.split('/').includes('..') || /[\0\\:]/.test(name))
      throw new Error(`side file ${name}`);
}

/** Indices and numbers in their range. */
function faultOf({ mesh }: RawScan): string | undefined {
  const { positions, triangles, offset } = mesh;
  if (triangles.length === 0) return 'no triangles';
  const vertices = positions.length / 3;
  for (const corner of triangles) if (corner >= vertices) return `corner ${corner} of ${vertices}`;
  for (const value of positions) if (!Number.isFinite(value)) return `position ${value}`;
  return offset.every(Number.isFinite) ? undefined : `offset ${offset}`;
}

/** A saved comparison through its own door: opened, refused in a sentence, or taken for an ordinary scan and read as that. */
async function triedSaved(bytes: Uint8Array): Promise<Outcome> {
  try {
    const saved = await unpackComparison(bytes, 'saved.glb', pictured);
    if (!saved) return await triedScan({ name: 'saved.glb', bytes });
    const words = savedFault(saved);
    return words ? { is: 'fault', words } : { is: 'read', code: 'saved' };
  } catch (error) {
    return refusedOr(error);
  }
}

/** A session through its door. What it names is only looked up; the types are the schema's. */
function triedSession(bytes: Uint8Array): Outcome {
  try {
    const { document } = admitSession(parsedJson(bytes, 'The session'));
    const numbers = unsound(document);
    return numbers ? { is: 'fault', words: numbers } : { is: 'read', code: 'session' };
  } catch (error) {
    return refusedOr(error);
  }
}

function refusedOr(error: unknown): Outcome {
  if (!(error instanceof Refusal)) return { is: 'fault', words: `threw ${String(error)}` };
  if (!/^[^\p{Cc}]{10,400}\.$/u.test(error.message)) return { is: 'fault', words: `no sentence: ${error.message}` };
  return { is: 'refused', code: 'refusal' };
}

/** Nothing computed comes out of a file, and nothing that is drawn is out of range. */
function savedFault({ document, faces, comparison }: Unpacked): string | undefined {
  if (comparison && (comparison.judgement !== null || !comparison.stated)) return 'a finding as computed here';
  for (const { mesh, fromFile, picture } of Object.values(faces)) {
    if (!fromFile) return 'a face as measured here';
    const vertices = mesh.positions.length / 3;
    for (const corner of mesh.triangles) if (corner >= vertices) return `corner ${corner} of ${vertices}`;
    for (const value of mesh.positions) if (!Number.isFinite(value)) return `position ${value}`;
    if (picture.cells.length !== 4 * picture.width * picture.height) return 'a picture of another size';
  }
  return unsound(document);
}

/** A number in it that is none. */
function unsound(value: unknown): string | undefined {
  if (typeof value === 'number') return Number.isFinite(value) ? undefined : `number ${value}`;
  if (value === null || typeof value !== 'object') return undefined;
  return Object.values(value).map(unsound).find(Boolean);
}
