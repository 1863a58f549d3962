import type { Band } from '../../design/index.ts';
import type { Face } from '../../face/index.ts';
import {
  apply,
  compose,
  type HeightGrid,
  invert,
  type Similarity,
  sampleCubic,
  turnOver,
} from '../../geometry/index.ts';
import { type Strip, stripFrame, stripOver, type UnrollOptions } from './unroll.ts';

/** A fitted object whose legend is laid under the reference's. */
export interface Witness {
  readonly name: string;
  readonly face: Pick<Face, 'sense' | 'faceFromScan' | 'relief'>;
  /** Reference scan (centred, mm) ← this scan (centred, mm); the identity for the reference itself. */
  readonly referenceFromSubject: Similarity;
}

export interface StackedStrip {
  readonly name: string;
  /** In the reference's strip frame: the same column and row is the same place of the matrix in every strip. */
  readonly strip: Strip;
  /** Share of the strip's cells with data. */
  readonly filled: number;
}

/**
 * Strips of several fitted objects in register: the reference's band is unrolled over each witness's own relief, taken through its
 * similarity into the reference's frame. Heights are in the impression's sense and in mm of the reference.
 *
 * For a strip point p on the reference's face plane the witness is looked up where p falls on its face plane and the
 * height found there is carried back; the small sideways shift that a tilted or raised surface causes is taken out by
 * two more rounds. A smooth warp is not applied.
 */
export function stackStrips(
  reference: Pick<Face, 'sense' | 'faceFromScan'>,
  band: Band,
  witnesses: readonly Witness[],
  options: UnrollOptions & { readonly pitchMm: number },
): StackedStrip[] {
  const { frame, pitch } = stripFrame(band, options.pitchMm, options);
  const readingFromFace = reference.sense === 'intaglio' ? turnOver : undefined;
  return witnesses.map(({ name, face, referenceFromSubject }) => {
    const inFace = compose(reference.faceFromScan, compose(referenceFromSubject, invert(face.faceFromScan)));
    const readingFromSubject = readingFromFace ? compose(readingFromFace, inFace) : inFace;
    const strip = stripOver(band, frame, pitch, heightThrough(face.relief, readingFromSubject));
    return { name, strip, filled: filledShare(strip.grid) };
  });
}

/** Height, in the target frame, of a relief carried there by a similarity; NaN where it has none. */
export function heightThrough(relief: HeightGrid, targetFromRelief: Similarity): (x: number, y: number) => number {
  const reliefFromTarget = invert(targetFromRelief);
  return (x, y) => {
    // The relief's own plane, seen from the target: start at height 0 and follow the surface.
    let z = 0;
    for (let round = 0; round < 3; round++) {
      const [u, v] = apply(reliefFromTarget, [x, y, z]);
      const height = sampleCubic(relief, u, v);
      if (Number.isNaN(height)) return Number.NaN;
      z = apply(targetFromRelief, [u, v, height])[2];
    }
    return z;
  };
}

function filledShare({ mask }: HeightGrid): number {
  let count = 0;
  for (const has of mask) count += has;
  return count / mask.length;
}
