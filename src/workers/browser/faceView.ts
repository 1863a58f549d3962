import { matrixEdge } from '../../core/face/index.ts';
import type { PreparedScan } from '../../core/pipeline.ts';
import { plateMesh } from './plateMesh.ts';
import type { FaceView } from './protocol.ts';
import { reliefPicture } from './reliefPicture.ts';
import { scannedRim } from './scannedRim.ts';
import { thumbnail, turnedThumbnail } from './thumbnail.ts';

/** Triangles of the surface that is saved, and of the one that carries the picture on the screen. */
export const savedTriangles = 40_000;
export const shownTriangles = 8_000;

/** What the screen needs of a prepared scan: small numbers, the stored normal picture and a light surface. */
export async function faceView(key: string, prepared: PreparedScan): Promise<FaceView> {
  const { scan, face } = prepared;
  return {
    key,
    name: scan.name,
    format: scan.format,
    sha256: scan.sha256,
    kind: prepared.kind,
    kindFrom: prepared.kindFrom,
    sense: face.sense,
    senseConfidence: face.senseConfidence,
    unit: scan.unit,
    unitFrom: scan.unitFrom,
    vertices: scan.vertices,
    triangles: scan.triangles,
    repairs: scan.repairs,
    outline: face.outline,
    ...(face.sense === 'intaglio' && { image: matrixEdge(face) }),
    noiseMm: face.noiseMm,
    filled: face.filled,
    holes: face.holes,
    upFrom: face.upFrom,
    candidates: face.candidates,
    candidate: face.candidate,
    picture: reliefPicture(face.relief),
    mesh: await plateMesh(face.relief, savedTriangles, shownTriangles),
    rim: scannedRim(face.relief),
    thumbnail: thumbnail(face.detail),
  };
}

/** The same, and where neither the user nor the outline says which way is up, where the top seems to be. */
export async function uprightView(key: string, prepared: PreparedScan): Promise<FaceView> {
  const view = await faceView(key, prepared);
  const { face } = prepared;
  if (face.upFrom !== 'scan') return view;
  const { standing } = await import('../../core/read/index.ts');
  const { top } = standing(face);
  if (!top) return view;
  return {
    ...view,
    upright: { turnDeg: face.sense === 'intaglio' ? top.deg : -top.deg, from: top.from },
    uprightThumbnail: turnedThumbnail(view.thumbnail, Math.round(-top.deg)),
  };
}

/** The buffers of a view that can move to the screen without a copy. */
export const buffersOf = (view: FaceView): ArrayBufferLike[] => [
  view.picture.cells.buffer,
  view.picture.mask.buffer,
  view.mesh.positions.buffer,
  view.mesh.triangles.buffer,
  ...(view.mesh.few ? [view.mesh.few.buffer] : []),
  view.thumbnail.rgba.buffer,
  ...(view.uprightThumbnail ? [view.uprightThumbnail.rgba.buffer] : []),
];
