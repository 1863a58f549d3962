import { dataBox, type Vec2 } from '../geometry/index.ts';
import { type Edged, matrixEdge } from './matrixEdge.ts';
import type { SizedShape } from './plainShape.ts';
import type { Face } from './types.ts';

/** The longer side of a face's outline, mm (the file's own unit before the unit is settled). */
export const longSide = ({ outline }: Pick<Face, 'outline'>): number => Math.max(outline.widthMm, outline.heightMm);

/** The box of a face's image in its frame, mm. */
export interface ImageBox {
  readonly middle: Vec2;
  /** The longer side, which the design's own lengths are scaled to. */
  readonly side: number;
  readonly shortSide: number;
}

/**
 * The box of a face's image. A cake of wax is up to twice as long as its impression, which need not lie in its middle. Where no image is left,
 * the outline's.
 */
export function imageBox({ image, outline }: Pick<Face, 'image' | 'outline'>): ImageBox {
  const { left, right, bottom, top } = dataBox(image);
  const none = right < left || top < bottom;
  const sides = none ? [outline.widthMm, outline.heightMm] : [right - left + image.pitch, top - bottom + image.pitch];
  return {
    middle: none ? [0, 0] : [(left + right) / 2, (bottom + top) / 2],
    side: Math.max(...sides),
    shortSide: Math.min(...sides),
  };
}

/** What a face shows by itself: of a matrix its seal, by its own edge; of what was pressed the piece. */
export const sealOrPiece = (face: Edged & Pick<Face, 'sense'>): SizedShape =>
  face.sense === 'intaglio' ? matrixEdge(face) : face.outline;

/** The box of all that was scanned of a face, as it stands upright, mm: the piece, whatever its outline is like. */
export function pieceSize({ relief }: Pick<Face, 'relief'>): { readonly widthMm: number; readonly heightMm: number } {
  const { left, right, bottom, top } = dataBox(relief);
  // Half a cell lies beyond the middle of each outermost one.
  return { widthMm: Math.max(0, right - left + relief.pitch), heightMm: Math.max(0, top - bottom + relief.pitch) };
}
