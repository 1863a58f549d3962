import { type HeightGrid, scaleMotion } from '../geometry/index.ts';
import type { Face } from './types.ts';

/** The same face with every length `factor` times as large: a file's own unit brought to millimetres. */
export function scaleFace(face: Face, factor: number): Face {
  if (factor === 1) return face;
  return {
    ...face,
    faceFromScan: scaleMotion(face.faceFromScan, factor),
    outline: {
      ...face.outline,
      widthMm: face.outline.widthMm * factor,
      heightMm: face.outline.heightMm * factor,
      polygon: face.outline.polygon.map((value) => value * factor),
    },
    relief: scaleGrid(face.relief, factor),
    detail: scaleGrid(face.detail, factor),
    image: scaleGrid(face.image, factor),
    ...(face.fine && { fine: scaleGrid(face.fine, factor) }),
    noiseMm: face.noiseMm * factor,
    noiseLengthMm: face.noiseLengthMm * factor,
    candidates: face.candidates.map((candidate) => ({
      ...candidate,
      areaMm2: candidate.areaMm2 * factor ** 2,
      detailMm: candidate.detailMm * factor,
      score: candidate.score * factor ** 3,
    })),
  };
}

function scaleGrid(grid: HeightGrid, factor: number): HeightGrid {
  return {
    ...grid,
    pitch: grid.pitch * factor,
    left: grid.left * factor,
    top: grid.top * factor,
    z: grid.z.map((value) => value * factor),
  };
}
