import { countCells, removeForm, type Vec2, withHeights } from '../geometry/index.ts';
import { insidePolygon } from './fill.ts';
import { within } from './fine.ts';
import { imageOf } from './image.ts';
import { longSide } from './size.ts';
import type { Face } from './types.ts';

/** A part of the face that a person leaves out of everything measured: a repair, a tag, modern damage. */
export interface ExcludedRegion {
  /** In the reference's face frame, mm; closed implicitly. */
  readonly outline: readonly Vec2[];
  readonly why: string;
  /** Who left it out; empty where nobody signed. */
  readonly by: string;
}

/**
 * The face without data inside the outlines (its own frame, mm). What is left keeps its heights; the form is taken off
 * again, so that nothing of what was left out bends it. The noise is the scan's, and stays.
 */
export function withoutRegions(face: Face, outlines: ReadonlyArray<readonly Vec2[]>): Face {
  if (outlines.length === 0) return face;
  const mask = face.relief.mask.slice();
  for (const outline of outlines) {
    const inside = insidePolygon(face.relief, Float64Array.from(outline.flat()));
    for (let i = 0; i < mask.length; i++) if (inside[i]) mask[i] = 0;
  }
  const z = face.relief.z.map((value, i) => (mask[i] ? value : 0));
  const relief = withHeights(face.relief, z, mask);
  const { detail } = removeForm(relief, 2);
  const { image } = imageOf(relief, longSide(face), face.sense === 'relief');
  return { ...face, relief, detail, image, ...(face.fine && { fine: within(face.fine, image) }), cut: true };
}

/** Share of the cells with data that `cut` still has of `face`. */
export function keptShare(face: Face, cut: Face): number {
  return countCells(cut.relief.mask) / Math.max(1, countCells(face.relief.mask));
}
