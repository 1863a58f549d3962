import { type HeightGrid, identity } from '../../core/geometry/index.ts';
import { comparisonKey } from '../../core/session.ts';
import type { Answer, ComparisonView, FaceView } from '../../workers/browser/protocol.ts';
import type { StoredPicture } from '../../workers/browser/storedPicture.ts';
import { admit, Refusal, shortText, textWithinBudget, withinBudget } from '../admission/admit.ts';
import { type Document, keyOf, scanById } from '../state/document.ts';
import { givenIn } from '../state/given.ts';
import { parseGlb, partsOfGlb } from './glb.ts';
import { loadGrid, type StoredGrid } from './grids.ts';
import { type ResultsInFile, resultsSchema, resultsSchemaName } from './results.ts';
import { type Gltf, gltfSchema, type StoredFace, savedSchema } from './savedSchema.ts';
import { isLater, isSavedName, migrated, savedNamePrefix } from './versions.ts';

export interface Unpacked {
  readonly document: Document;
  readonly faces: Readonly<Record<string, FaceView>>;
  /** What the file states, to be shown as that. */
  readonly comparison: ComparisonView | null;
  readonly detail: 'reduced' | 'full';
}

/** Makes the pictures of a relief: in the worker, or at once where there is none. */
export type Pictured = (relief: HeightGrid) => Promise<Answer<StoredPicture>>;

/**
 * Reads a saved comparison; null where the bytes are an ordinary scan, damaged or not: their reader says what they are.
 * Throws a Refusal, and nothing else, for a saved comparison that cannot be let in. Results are taken as what the file
 * states; results of another shape, or damaged ones, are left out.
 */
export async function unpackComparison(bytes: Uint8Array, name: string, pictured: Pictured): Promise<Unpacked | null> {
  const what = `The saved comparison ${shortText(name)}`;
  const parts = partsOfGlb(bytes);
  if (!parts || !namesSaved(parts.text)) return null;
  textWithinBudget(parts.text, what);
  const glb = parseGlb(bytes);
  const raw = extrasOf(glb?.json);
  if (!glb || !raw) return null;
  if (isLater(String(raw.schema)))
    throw new Refusal(
      `${what} was saved by a later version of Ectype (${shortText(String(raw.schema), 30)}) and was not opened.`,
    );
  try {
    withinBudget(glb.json, what);
    const saved = admit(savedSchema, migrated(raw), what);
    const pieces = new Parts(admit(gltfSchema, glb.json, what), glb.binary, what);
    const { document } = saved;
    const faces: Record<string, FaceView> = {};
    for (const scan of document.scans) {
      const face = Object.hasOwn(saved.faces, scan.id) ? saved.faces[scan.id] : undefined;
      if (face) faces[scan.id] = await faceOf(face, keyOf(scan), saved.detail, pieces, pictured, what);
    }
    return {
      document,
      faces,
      comparison: resultsIn(saved.results, document, faces, pieces, what),
      detail: saved.detail,
    };
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal(`${what} is damaged (${shortText(String(error))}) and was not opened.`);
  }
}

/** Whether the name of a saved comparison occurs in the text: without it, nothing of another's file is parsed here. */
const namesSaved = (text: Uint8Array): boolean => new TextDecoder('latin1').decode(text).includes(savedNamePrefix);

/** What this program wrote into the file, or null where another wrote it. */
function extrasOf(json: unknown): Record<string, unknown> | null {
  let here = json;
  for (const name of ['asset', 'extras', 'ectype'])
    here = here !== null && typeof here === 'object' ? (here as Record<string, unknown>)[name] : undefined;
  const raw = here as Record<string, unknown> | null | undefined;
  return raw && typeof raw === 'object' && isSavedName(raw.schema) ? raw : null;
}

/** The binary part, handed out piece by piece. No byte is handed out twice, so that little cannot claim to be much. */
class Parts {
  private readonly used = new Set<number>();
  private left: number;
  private readonly gltf: Gltf;
  private readonly binary: Uint8Array;
  private readonly what: string;

  constructor(gltf: Gltf, binary: Uint8Array, what: string) {
    this.gltf = gltf;
    this.binary = binary;
    this.what = what;
    this.left = binary.length;
  }

  grid(stored: StoredGrid): HeightGrid {
    const cells = stored.width * stored.height;
    return loadGrid(stored, new Uint16Array(this.bytes(stored.view, 2 * cells)));
  }

  mesh(index: number): { positions: Float32Array; triangles: Uint32Array } {
    const primitive = this.gltf.meshes[index]?.primitives[0];
    const [places, corners] = [primitive?.attributes.POSITION, primitive?.indices].map((at) =>
      at === undefined ? undefined : this.gltf.accessors[at],
    );
    if (!places || !corners) throw this.damaged('a surface is missing');
    const positions = new Float32Array(this.bytes(places.bufferView, 12 * places.count)).map((metres) => metres * 1000);
    const triangles = new Uint32Array(this.bytes(corners.bufferView, 4 * corners.count));
    if (triangles.length % 3 !== 0 || triangles.some((corner) => corner >= places.count))
      throw this.damaged('a triangle has a corner that is not there');
    if (!positions.every((value) => Math.abs(value) <= 10_000)) throw this.damaged('a vertex has no place');
    return { positions, triangles };
  }

  private bytes(view: number, length: number): ArrayBuffer {
    const place = this.gltf.bufferViews[view];
    if (!place || this.used.has(view)) throw this.damaged('a part is missing');
    const end = place.byteOffset + place.byteLength;
    if (place.byteLength !== length || end > this.binary.length || length > this.left)
      throw this.damaged('a part is not as large as it says');
    this.used.add(view);
    this.left -= length;
    return this.binary.slice(place.byteOffset, end).buffer as ArrayBuffer;
  }

  private damaged(why: string): Refusal {
    return new Refusal(`${this.what} is damaged (${why}) and was not opened.`);
  }
}

async function faceOf(
  stored: StoredFace,
  key: string,
  detail: 'reduced' | 'full',
  parts: Parts,
  pictured: Pictured,
  what: string,
): Promise<FaceView> {
  const { relief, mesh, rim, outline, ...small } = stored;
  const pictures = await pictured(parts.grid(relief));
  if (!pictures.ok) throw new Refusal(`${what} is damaged (${shortText(pictures.message)}) and was not opened.`);
  return {
    ...small,
    key,
    outline: { ...outline, polygon: Float64Array.from(outline.polygon) },
    rim: Float32Array.from(rim),
    mesh: parts.mesh(mesh),
    ...pictures.value,
    fromFile: detail,
  };
}

/** The results, where they are of this version and whole; null otherwise: they can be made again. */
function resultsIn(
  raw: unknown,
  document: Document,
  faces: Readonly<Record<string, FaceView>>,
  parts: Parts,
  what: string,
): ComparisonView | null {
  const [a, b] = [scanById(document, document.referenceId), scanById(document, document.subjectId)];
  const reference = a && faces[a.id];
  if (!raw || (raw as { schema?: unknown }).schema !== resultsSchemaName || !a || !b || !reference || !faces[b.id])
    return null;
  try {
    const results = admit(resultsSchema, raw, what);
    const given = givenIn(document, { at: 'ready', key: reference.key, value: reference });
    return viewOf(results, comparisonKey(keyOf(a), keyOf(b), given), parts);
  } catch (error) {
    if (error instanceof Refusal) return null;
    throw error;
  }
}

function viewOf(results: ResultsInFile, key: string, parts: Parts): ComparisonView {
  const { fit, difference, referenceFaceFromSubjectFace, stated } = results;
  return {
    key,
    fit: {
      ...fit,
      models: fit.models.map((model) => ({ ...model, referenceFromSubject: identity })),
      // Sentences of the file stand among what it states and nowhere else.
      doubts: [],
      degenerate: [],
      covariance: new Float64Array(49),
      chance: { location: Number.NaN, spread: Number.NaN, log10P: Number.NaN, mirror: Number.NaN },
    },
    referenceFaceFromSubjectFace,
    difference: difference && differenceOf(difference, parts),
    judgement: null,
    stated: stated ?? nothingStated,
  };
}

function differenceOf(
  { map, levelOfDetection, significant, size, ...numbers }: NonNullable<ResultsInFile['difference']>,
  parts: Parts,
): NonNullable<ComparisonView['difference']> {
  const heights = parts.grid(map);
  const level = parts.grid(levelOfDetection);
  const chance = significant && parts.grid(significant);
  for (const one of [level, ...(chance ? [chance] : [])])
    if (one.width !== heights.width || one.height !== heights.height) throw new Refusal('The maps differ in size.');
  return {
    ...numbers,
    size: { ...size, favours: 'neither', copyIs: 'either', reading: [] },
    map: heights,
    levelOfDetection: level,
    ...(chance && { significant: Uint8Array.from(chance.z, (share) => (share >= 0.5 ? 1 : 0)) }),
  };
}

const nothingStated: NonNullable<ComparisonView['stated']> = {
  ...{ sentence: '', strength: '', limits: [], ground: [], doubts: [], size: [] },
  ...{ marks: [], zones: [], zoneOutlines: [], areas: [] },
};
