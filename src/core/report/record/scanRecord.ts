import { pieceSize } from '../../face/index.ts';
import { compose, type Similarity, toMatrix4, type Vec3 } from '../../geometry/index.ts';
import type { ImageSize } from '../../judge/index.ts';
import type { PreparedScan } from '../input.ts';
import { rounded, roundedMm, roundedShare } from './rounded.ts';
import type { ScanRecord } from './schema.ts';

/** What the record keeps of one scan: the file, what was stated or assumed, what was mended, and the face found. */
export function scanRecord(prepared: PreparedScan, image: ImageSize | null): ScanRecord {
  const { scan, face } = prepared;
  return {
    file: scan.name,
    sha256: scan.sha256,
    format: scan.format,
    kind: prepared.kind,
    kindFrom: prepared.kindFrom,
    sense: face.sense,
    senseFrom: face.senseFrom,
    senseConfidence: rounded(face.senseConfidence, 3),
    unit: scan.unit,
    unitFrom: scan.unitFrom,
    ...(prepared.material === undefined ? {} : { material: prepared.material }),
    /** Read mirrored back, at the user's word: every place and motion of this scan is in (−x, y, z) of the file. */
    ...(prepared.mirroredBack && { mirroredBack: true }),
    scaleUncertaintyPercent: rounded(prepared.scaleUncertaintyPercent, 4),
    scaleUncertaintyFrom: prepared.scaleUncertaintyFrom,
    vertices: scan.vertices,
    triangles: scan.triangles,
    repairs: { ...scan.repairs },
    face: faceRecord(prepared),
    image: image && { ...image, ...sizeRecord(image) },
    piece: sizeRecord(pieceSize(face)),
    // Not measured yet.
    surviving: null,
  };
}

const sizeRecord = ({ widthMm, heightMm }: Pick<ImageSize, 'widthMm' | 'heightMm'>) => ({
  widthMm: rounded(widthMm, 2),
  heightMm: rounded(heightMm, 2),
});

function faceRecord({ scan, face }: PreparedScan) {
  return {
    outline: face.outline.shape,
    widthMm: rounded(face.outline.widthMm, 3),
    heightMm: rounded(face.outline.heightMm, 3),
    noiseMm: roundedMm(face.noiseMm),
    resolutionMm: roundedMm(face.relief.pitch),
    filled: roundedShare(face.filled),
    holes: face.holes,
    candidates: face.candidates.length,
    candidate: face.candidate,
    upFrom: face.upFrom,
    /** File in mm → face frame: x right, y up the design, z out of the face. */
    faceFromFile: matrixRecord(compose(face.faceFromScan, shift(scan.mesh.offset))),
  };
}

const shift = ([x, y, z]: Vec3): Similarity => ({
  scale: 1,
  rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  translation: [-x, -y, -z],
});

/** Row-major 4 × 4: directions to 12 decimals and shifts to a nanometre, so that large file coordinates survive. */
export const matrixRecord = (motion: Similarity): number[] =>
  toMatrix4(motion).map((value, i) => rounded(value, i % 4 === 3 && i < 12 ? 6 : 12) as number);
