import type { ComparisonView, FaceView } from '../../workers/browser/protocol.ts';
import type { Document } from '../state/document.ts';
import { BinaryPart, writeGlb } from './glb.ts';
import { gridOfPicture, reducedGrid, storeGrid } from './grids.ts';
import { toPlain } from './plain.ts';
import { resultsSchemaName } from './results.ts';
import { statedOf } from './stated.ts';
import { savedSchemaName } from './versions.ts';

/** Cells on the longer side of a reduced relief: enough to read, too coarse to cast from. */
const reducedSide = 420;

export interface PackInput {
  readonly document: Document;
  /** By scan id: the two faces of the pair. */
  readonly faces: Readonly<Record<string, FaceView>>;
  readonly comparison: ComparisonView | undefined;
  /** Full relief only as a deliberate act: the reason is written into the file. Empty: reduced. */
  readonly reason: string;
}

/**
 * The comparison as one GLB: the two surfaces as any glTF viewer shows them, laid on one another, and in `extras` the
 * document, the hashes of the originals, the results and the relief maps. Reduced unless a reason is given.
 */
export function packComparison({ document, faces, comparison, reason }: PackInput): Uint8Array<ArrayBuffer> {
  const binary = new BinaryPart();
  const most = reason === '' ? reducedSide : Number.POSITIVE_INFINITY;
  const accessors: unknown[] = [];
  const meshes: unknown[] = [];
  const nodes: unknown[] = [];
  const kept: Record<string, unknown> = {};
  for (const scan of document.scans) {
    const face = faces[scan.id];
    if (!face) continue;
    nodes.push({ name: scan.title, mesh: meshes.length, matrix: placeOf(scan.id, document, comparison) });
    meshes.push(meshOf(face, accessors, binary));
    const {
      picture,
      mesh,
      thumbnail: _drawnAgain,
      uprightThumbnail: _turnedAgain,
      key: _madeAgain,
      fromFile: _toldAgain,
      rim,
      outline,
      ...small
    } = face;
    const relief = reducedGrid(gridOfPicture(picture), most);
    kept[scan.id] = {
      ...small,
      outline: toPlain(outline),
      rim: toPlain(rim),
      candidates: toPlain(face.candidates),
      mesh: meshes.length - 1,
      relief: storeGrid(relief, binary),
    };
  }
  const ectype = {
    schema: savedSchemaName,
    // Two dates are not in the file: a view of them would show nothing.
    document: { ...document, slides: document.slides.filter(({ dates }) => !dates) },
    faces: kept,
    results: comparison ? resultsIn(comparison, most, binary) : null,
    detail: reason === '' ? 'reduced' : 'full',
    reason,
  };
  const bytes = binary.bytes();
  const json = {
    asset: { version: '2.0', generator: 'Ectype', extras: { ectype } },
    scene: 0,
    scenes: [{ nodes: nodes.map((_, i) => i) }],
    nodes,
    meshes,
    accessors,
    bufferViews: binary.views,
    buffers: [{ byteLength: bytes.length }],
  };
  return writeGlb({ json, binary: bytes });
}

/** Motion, numbers and maps for the plate; of the judgement, the words and what is drawn. */
function resultsIn(comparison: ComparisonView, most: number, binary: BinaryPart): unknown {
  const { fit, referenceFaceFromSubjectFace, difference } = comparison;
  const { covariance: _c, doubts: _d, degenerate: _e, start: _s, models, ...numbers } = fit;
  return toPlain({
    schema: resultsSchemaName,
    fit: { ...numbers, models: models.map(({ referenceFromSubject: _r, warp: _w, ...model }) => model) },
    referenceFaceFromSubjectFace,
    difference: difference && differenceIn(difference, most, binary),
    stated: statedOf(comparison),
  });
}

function differenceIn(
  difference: NonNullable<ComparisonView['difference']>,
  most: number,
  binary: BinaryPart,
): unknown {
  const { map, levelOfDetection, significant, size, ...numbers } = difference;
  const { ratio, sd, x, y, depth } = size;
  const share = significant && { ...map, z: Float32Array.from(significant) };
  return {
    ...numbers,
    size: { ratio, sd, x, y, depth },
    map: storeGrid(reducedGrid(map, most), binary),
    levelOfDetection: storeGrid(reducedGrid(levelOfDetection, most), binary),
    ...(share && { significant: storeGrid(reducedGrid(share, most), binary) }),
  };
}

/** glTF is in metres; the subject stands where the fit puts it, in the reference's face frame. Column-major. */
function placeOf(id: string, document: Document, comparison: ComparisonView | undefined): number[] {
  const fit = comparison?.referenceFaceFromSubjectFace[comparison.fit.chosen];
  if (id !== document.subjectId || !fit) return [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];
  const r = fit.rotation.map((value) => value * fit.scale);
  const [x, y, z] = fit.translation.map((mm) => mm / 1000);
  return [r[0], r[3], r[6], 0, r[1], r[4], r[7], 0, r[2], r[5], r[8], 0, x, y, z, 1];
}

function meshOf(face: FaceView, accessors: unknown[], binary: BinaryPart): unknown {
  const metres = face.mesh.positions.map((mm) => mm / 1000);
  const [min, max] = bounds(metres);
  const position = accessors.push({
    ...{ bufferView: binary.add(metres), componentType: 5126, count: metres.length / 3, type: 'VEC3', min, max },
  });
  const { triangles } = face.mesh;
  const indices = accessors.push({
    ...{ bufferView: binary.add(triangles), componentType: 5125, count: triangles.length, type: 'SCALAR' },
  });
  return { primitives: [{ attributes: { POSITION: position - 1 }, indices: indices - 1 }] };
}

function bounds(positions: Float32Array): [number[], number[]] {
  const min = [0, 1, 2].map(() => Number.POSITIVE_INFINITY);
  const max = [0, 1, 2].map(() => Number.NEGATIVE_INFINITY);
  for (let i = 0; i < positions.length; i++) {
    min[i % 3] = Math.min(min[i % 3], positions[i]);
    max[i % 3] = Math.max(max[i % 3], positions[i]);
  }
  return [min, max];
}
