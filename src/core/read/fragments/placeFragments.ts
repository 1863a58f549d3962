import type { Face } from '../../face/index.ts';
import {
  apply,
  compose,
  distanceTransform,
  emptyGrid,
  type HeightGrid,
  invert,
  type Similarity,
  sampleCubic,
  turnOver,
  withHeights,
  xOf,
  yOf,
} from '../../geometry/index.ts';
import { heightThrough, type Witness } from '../strip/index.ts';

/** A fragment fitted to the reference. */
export interface FittedFragment extends Witness {
  readonly face: Pick<Face, 'sense' | 'faceFromScan' | 'relief' | 'detail'>;
}

/** A fragment where it belongs: both grids have the same cells for all fragments of one reference, in the impression's sense. */
export interface PlacedFragment {
  readonly name: string;
  /** The surface as it lies there, heights in mm of the reference. */
  readonly surface: HeightGrid;
  /** The same with the fragment's own form removed, to be lit. */
  readonly detail: HeightGrid;
  /** Middle of its area, mm. */
  readonly middle: readonly [number, number];
}

/** Free border round all fragments, mm: what lies beyond the grid is nobody's. */
const borderMm = 6;

/**
 * Fragments of one seal in the reference's face frame (turned over where the reference is engraved, so that all read): each relief
 * is carried there by its own similarity and looked up cell by cell, as legends are for a stack. A smooth warp is not applied.
 */
export function placeFragments(
  reference: Pick<Face, 'sense' | 'faceFromScan'>,
  fragments: readonly FittedFragment[],
  pitchMm: number,
): PlacedFragment[] {
  const carried = fragments.map((fragment) => ({ fragment, into: readingFrom(reference, fragment) }));
  const frame = frameOf(carried, pitchMm);
  return carried.map(({ fragment, into }) => placed(fragment, into, frame));
}

interface Carried {
  readonly fragment: FittedFragment;
  /** Reading frame ← the fragment's face frame. */
  readonly into: Similarity;
}

function readingFrom(
  reference: Pick<Face, 'sense' | 'faceFromScan'>,
  { face, referenceFromSubject }: FittedFragment,
): Similarity {
  const inFace = compose(reference.faceFromScan, compose(referenceFromSubject, invert(face.faceFromScan)));
  return reference.sense === 'intaglio' ? compose(turnOver, inFace) : inFace;
}

/** Cells over all fragments' data, with a free border. */
function frameOf(carried: readonly Carried[], pitchMm: number): HeightGrid {
  const box = { left: Infinity, right: -Infinity, bottom: Infinity, top: -Infinity };
  for (const { fragment, into } of carried) {
    const { relief } = fragment.face;
    for (let i = 0; i < relief.mask.length; i++) {
      if (!relief.mask[i]) continue;
      const place = [xOf(relief, i % relief.width), yOf(relief, Math.floor(i / relief.width)), relief.z[i]] as const;
      const [x, y] = apply(into, place);
      box.left = Math.min(box.left, x);
      box.right = Math.max(box.right, x);
      box.bottom = Math.min(box.bottom, y);
      box.top = Math.max(box.top, y);
    }
  }
  return emptyGrid(box.left - borderMm, box.right + borderMm, box.bottom - borderMm, box.top + borderMm, pitchMm);
}

function placed({ name, face }: FittedFragment, into: Similarity, frame: HeightGrid): PlacedFragment {
  const heightAt = heightThrough(face.relief, into);
  const faceFromReading = invert(into);
  // A fragment that lies face to face with its reference has its heights the other way round there.
  const sign = into.rotation[8] < 0 ? -into.scale : into.scale;
  const size = frame.z.length;
  const [surface, detail, mask] = [new Float32Array(size), new Float32Array(size), new Uint8Array(size)];
  const sum = [0, 0, 0];
  for (let row = 0, i = 0; row < frame.height; row++)
    for (let col = 0; col < frame.width; col++, i++) {
      const [x, y] = [xOf(frame, col), yOf(frame, row)];
      const z = heightAt(x, y);
      if (Number.isNaN(z)) continue;
      const [u, v] = apply(faceFromReading, [x, y, z]);
      const lit = sampleCubic(face.detail, u, v);
      if (Number.isNaN(lit)) continue;
      surface[i] = z;
      detail[i] = sign * lit;
      mask[i] = 1;
      sum[0] += x;
      sum[1] += y;
      sum[2]++;
    }
  const middle = [sum[0] / Math.max(1, sum[2]), sum[1] / Math.max(1, sum[2])] as const;
  return { name, surface: withHeights(frame, surface, mask), detail: withHeights(frame, detail, mask), middle };
}

/** All fragments on one grid; where two carry a place, it is shown from the one whose edge is further away. */
export function joined(fragments: readonly PlacedFragment[], which: 'surface' | 'detail'): HeightGrid {
  const first = fragments[0][which];
  const [z, mask] = [new Float32Array(first.z.length), new Uint8Array(first.z.length)];
  const inside = new Float32Array(first.z.length);
  for (const fragment of fragments) {
    const grid = fragment[which];
    const depth = distanceTransform(grid.mask, grid.width);
    for (let i = 0; i < z.length; i++) {
      if (!grid.mask[i] || depth[i] <= inside[i]) continue;
      z[i] = grid.z[i];
      inside[i] = depth[i];
      mask[i] = 1;
    }
  }
  return withHeights(first, z, mask);
}

/** Share of the reference's face (its own data) that fragments carry together, 0 to 1. */
export function shareOf(reference: Pick<Face, 'sense' | 'relief'>, fragments: readonly PlacedFragment[]): number {
  const all = joined(fragments, 'surface');
  const { relief } = reference;
  const flip = reference.sense === 'intaglio' ? -1 : 1;
  let [has, whole] = [0, 0];
  for (let i = 0; i < relief.mask.length; i++) {
    if (!relief.mask[i]) continue;
    whole++;
    const x = flip * xOf(relief, i % relief.width);
    const col = Math.round((x - all.left) / all.pitch);
    const row = Math.round((all.top - yOf(relief, Math.floor(i / relief.width))) / all.pitch);
    if (col >= 0 && row >= 0 && col < all.width && row < all.height) has += all.mask[row * all.width + col];
  }
  return whole === 0 ? 0 : has / whole;
}
