import {
  bodyOf,
  type Face,
  type FaceOptions,
  faceCandidates,
  findFace,
  longSide,
  reverseWinding,
  type Sense,
  scaleFace,
} from './face/index.ts';
import {
  buildSurfaceIndex,
  type Help,
  layOutWith,
  partOf,
  report,
  type SurfaceIndex,
  sharedMesh,
  vertexNormals,
  type Watch,
} from './geometry/index.ts';
import { mirroredBack } from './mirroredBack.ts';
import {
  decideUnit,
  decideUnitsOfPair,
  type Kind,
  mmPer,
  type RawScan,
  type ReadExtras,
  type ReadOptions,
  readScan,
  type Scan,
  ScanError,
  toMillimetres,
  type Unit,
  type UnitDecision,
  uncapital,
} from './scan/index.ts';

/** One file and what the user states about it. */
export interface ScanInput extends ReadOptions, ReadExtras, Omit<FaceOptions, 'sense'> {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly kind?: Kind;
  readonly material?: string;
  /** The file is a mirror image, says the user, and is read mirrored back. */
  readonly mirrored?: boolean;
  /** Scale uncertainty of the scan, percent (1 σ); 0.3 where nothing is stated. */
  readonly scaleUncertaintyPercent?: number;
}

/** A scan in millimetres with its face found. */
export interface PreparedScan {
  readonly scan: Scan;
  readonly face: Face;
  readonly kind: Kind;
  readonly kindFrom: 'stated' | 'assumed';
  readonly material?: string;
  /** Read mirrored back, at the user's word. */
  readonly mirroredBack?: true;
  readonly scaleUncertaintyPercent: number;
  readonly scaleUncertaintyFrom: 'stated' | 'assumed';
  readonly surface?: KnownSurface;
}

/** A scan and its face in the file's own unit, and, where somebody had the time, what a fit to it needs. */
export interface FoundScan {
  readonly raw: RawScan;
  readonly face: Face;
  readonly surface?: KnownSurface;
}

/** Vertex normals of a mesh and, for a reference, its index for closest places; flat arrays, so that a thread can hand them over. */
export interface KnownSurface {
  readonly normals: Float32Array;
  readonly index?: SurfaceIndex;
}

/** Reads a file and finds the face on it: `readAndFind`, or the same in another thread, which may index it as well. */
export type Find = (input: ScanInput, watch: Watch, toBeIndexed: boolean) => Promise<FoundScan>;

/** What a comparison needs of the surface beside: normals, and for the one that is fitted to the index, made with another thread's help where there is one. */
export function withSurface(found: FoundScan, indexed: boolean, help?: Help): FoundScan {
  if (indexed && help) return indexedWith(help, found);
  const normals = vertexNormals(found.raw.mesh);
  const index = indexed && buildSurfaceIndex(found.raw.mesh, { normals });
  return { ...found, surface: { normals, ...(index && { index }) } };
}

function indexedWith(help: Help, { raw, face }: FoundScan): FoundScan {
  const normals = vertexNormals(raw.mesh);
  const mesh = sharedMesh(raw.mesh);
  const index = buildSurfaceIndex(mesh, { normals, help });
  layOutWith(help, index);
  return { raw: { ...raw, mesh }, face, surface: { normals, index } };
}

/** What is taken where the user states no scale uncertainty, percent. */
export const assumedScaleUncertaintyPercent = 0.3;

const senseOfKind: Readonly<Record<Kind, Sense>> = {
  matrix: 'intaglio',
  mould: 'intaglio',
  impression: 'relief',
  cast: 'relief',
};

/**
 * Reads one scan, finds its face and brings both to millimetres. Where the unit cannot be told it throws ScanError
 * `unitNeeded` with the units to choose from; `partner` helps with that.
 */
export async function prepareScan(input: ScanInput, watch: Watch = {}, partner?: PreparedScan): Promise<PreparedScan> {
  const found = await readAndFind(input, watch);
  const decision = decideUnit(found.raw, longSide(found.face), partner && longSide(partner.face), input.unit);
  return settle(input, found, decision);
}

/**
 * Both scans of a pair; a unit that one of them leaves open is settled by the other where only one makes them agree.
 * `find` may run in threads of its own: then both are read at once.
 */
export async function preparePair(
  first: ScanInput,
  second: ScanInput,
  watch: Watch = {},
  find: Find = readAndFind,
): Promise<[PreparedScan, PreparedScan]> {
  const [a, b] = await Promise.all([
    find(first, partOf(watch, 0, 0.5), true),
    find(second, partOf(watch, 0.5, 1), false),
  ]);
  const question = ({ raw, face }: FoundScan, { unit }: ScanInput) => ({
    raw,
    faceLongSide: longSide(face),
    stated: unit,
  });
  const [unitA, unitB] = decideUnitsOfPair(question(a, first), question(b, second));
  return [settle(first, a, unitA), settle(second, b, unitB)];
}

/** Will the face be compared as it was found? In another unit than millimetres each of its lengths changes, and what was begun on it is of no use. */
export function isInMillimetres({ raw, face }: FoundScan, stated: Unit | undefined): boolean {
  const decision = decideUnit(raw, longSide(face), undefined, stated);
  return 'unit' in decision && decision.unit === 'mm';
}

/** Reads one file and finds its face, in the file's own unit. Throws ScanError for what cannot be used. */
export async function readAndFind(input: ScanInput, watch: Watch): Promise<FoundScan> {
  watch.step?.('read');
  const read = await readScan(input.bytes, input.name, input, partOf(watch, 0, 0.4));
  const raw = input.mirrored ? mirroredBack(read) : read;
  watch.step?.('face');
  report(watch, 0.4, 'Finding the face');
  try {
    return orientAndFind(raw, input);
  } catch (error) {
    if (error instanceof ScanError) throw new ScanError(error.code, `${raw.name}: ${uncapital(error.message)}`);
    throw error;
  }
}

/**
 * Finds the face on a surface whose triangles look outward: a body that is inside out is turned, and so is an open
 * sheet that shows the other sense than its stated kind, since winding is the weaker witness.
 */
function orientAndFind(raw: RawScan, input: ScanInput): { raw: RawScan; face: Face } {
  const body = bodyOf(raw.mesh, raw.totals);
  const oriented = body.insideOut ? reversed(raw) : raw;
  const candidates = faceCandidates(oriented.mesh);
  const face = findFace(oriented.mesh, input, candidates, body.closed);
  if (!input.kind) return { raw: oriented, face };
  const sense = senseOfKind[input.kind];
  const stated = (seen: Face): Face => ({ ...seen, sense, senseFrom: 'stated' });
  if (face.sense === sense || body.closed || face.senseConfidence < 0.6) return { raw: oriented, face: stated(face) };
  const turned = reversed(oriented);
  return { raw: turned, face: stated(findFace(turned.mesh, input)) };
}

function reversed(raw: RawScan): RawScan {
  return {
    ...raw,
    mesh: reverseWinding(raw.mesh),
    repairs: { ...raw.repairs, flipped: raw.repairs.flipped + raw.mesh.triangles.length / 3 },
  };
}

/** What is wrong with the unit at hand, or that there is none. */
function whyAsked({ unitInFile, unitTrusted }: RawScan, faceLongSide: number, stated: Unit | undefined): string {
  const unit = stated ?? (unitTrusted ? unitInFile : undefined);
  if (!unit) return `the unit cannot be told from the size (${faceLongSide.toPrecision(3)} across)`;
  const mm = Number((faceLongSide * mmPer[unit]).toPrecision(3));
  return `the unit ${stated ? 'stated' : 'in the file'}, ${unit}, would make the face ${mm} mm across, which it cannot be`;
}

function settle(input: ScanInput, { raw, face, surface }: FoundScan, decision: UnitDecision): PreparedScan {
  if ('ask' in decision)
    throw new ScanError(
      'unitNeeded',
      `${raw.name}: ${whyAsked(raw, longSide(face), input.unit)}; state it with --unit ${decision.ask.join(' or ')}.`,
      { units: decision.ask, faceLongSide: longSide(face) },
    );
  const factor = mmPer[decision.unit];
  return {
    scan: toMillimetres(raw, decision.unit, decision.unitFrom),
    face: scaleFace(face, factor),
    kind: input.kind ?? (face.sense === 'intaglio' ? 'matrix' : 'impression'),
    kindFrom: input.kind ? 'stated' : 'assumed',
    ...(input.material && { material: input.material }),
    ...(input.mirrored && { mirroredBack: true as const }),
    scaleUncertaintyPercent: input.scaleUncertaintyPercent ?? assumedScaleUncertaintyPercent,
    scaleUncertaintyFrom: input.scaleUncertaintyPercent === undefined ? 'assumed' : 'stated',
    // An index holds lengths, and normals are rounded as the file's own unit has it: both are good for the unit they were made in.
    ...(surface && factor === 1 && { surface }),
  };
}
