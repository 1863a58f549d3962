import type { GeneratedPair, GeneratedScan } from '../../../sample-scans/generator/index.ts';
import { mmPerUnit } from '../../../sample-scans/generator/types.ts';
import type { Face } from '../../../src/core/face/index.ts';
import { apply, compose, invert, type Similarity, type Vec3 } from '../../../src/core/geometry/index.ts';

/** Where things of the truth lie in the reference's face frame as it was found, mm. */
export interface FoundFrame {
  /** From the truth's own face frame of the reference. */
  readonly fromTruth: Similarity;
  readonly fromReferenceFile: Similarity;
  readonly fromSubjectFile: Similarity | null;
}

/** `offset`: what reading took off the reference's coordinates. */
export function foundFrame(pair: Pick<GeneratedPair, 'reference' | 'truth'>, face: Face, offset: Vec3): FoundFrame {
  const back: Similarity = {
    scale: 1,
    rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1],
    translation: [-offset[0], -offset[1], -offset[2]],
  };
  const fromReferenceFile = compose(face.faceFromScan, back);
  const { referenceFromSubject } = pair.truth;
  return {
    fromTruth: compose(fromReferenceFile, invert(pair.reference.faceFromScan)),
    fromReferenceFile,
    fromSubjectFile: referenceFromSubject && compose(fromReferenceFile, referenceFromSubject),
  };
}

/** Visits the vertices of a scan whose bits hold `flag`: x, y in the frame, mm, and all bits. */
export function eachVertex(
  { positions, bits, unit }: Pick<GeneratedScan, 'positions' | 'bits' | 'unit'>,
  frame: Similarity,
  flag: number,
  visit: (x: number, y: number, bits: number) => void,
): void {
  const k = mmPerUnit[unit];
  for (let i = 0; i < bits.length; i++) {
    if (!(bits[i] & flag)) continue;
    const [x, y] = apply(frame, [positions[3 * i] * k, positions[3 * i + 1] * k, positions[3 * i + 2] * k]);
    visit(x, y, bits[i]);
  }
}

/** x, y pairs of the truth's face frame in the found one. */
export function moved(polyline: Float64Array, { fromTruth }: FoundFrame): Float64Array {
  const out = new Float64Array(polyline.length);
  for (let i = 0; i < out.length; i += 2) {
    const [x, y] = apply(fromTruth, [polyline[i], polyline[i + 1], 0]);
    out[i] = x;
    out[i + 1] = y;
  }
  return out;
}

/** Points that can be asked whether one lies near a place: buckets of `reachMm`. */
export class NearPoints {
  private readonly reach: number;
  private readonly buckets = new Map<string, number[]>();

  constructor(reachMm: number) {
    this.reach = reachMm;
  }

  add(x: number, y: number): void {
    const key = `${Math.floor(x / this.reach)} ${Math.floor(y / this.reach)}`;
    const list = this.buckets.get(key);
    if (list) list.push(x, y);
    else this.buckets.set(key, [x, y]);
  }

  has(x: number, y: number): boolean {
    const c = Math.floor(x / this.reach);
    const r = Math.floor(y / this.reach);
    for (let dc = -1; dc <= 1; dc++)
      for (let dr = -1; dr <= 1; dr++) {
        const list = this.buckets.get(`${c + dc} ${r + dr}`) ?? [];
        for (let i = 0; i < list.length; i += 2) if (Math.hypot(list[i] - x, list[i + 1] - y) < this.reach) return true;
      }
    return false;
  }
}
