import { describe, expect, it } from 'vitest';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { within } from '../../src/core/face/fine.ts';
import { type Face, findFace } from '../../src/core/face/index.ts';
import { type FitSide, fitFaces, searchFaces } from '../../src/core/fit/index.ts';
import { withHeights } from '../../src/core/geometry/index.ts';
import { meshOf } from '../face/scanned.ts';

const pair = makePair({ ...randomRecipe(6, 'same', { vertices: 6000 }), whole: false });
const side = (mesh: FitSide['mesh'], sense: Face['sense']): FitSide => ({ mesh, face: findFace(mesh, { sense }) });
const reference = side(meshOf(pair.reference), 'intaglio');
const subject = side(meshOf(pair.subject), 'relief');

/** The face with data in a square of so many cells only. */
function scrapOf(face: Face, cells: number): Face {
  const { width, mask, z } = face.detail;
  const middle = Math.floor(width / 2);
  const left = mask.map((value, i) => {
    const [col, row] = [i % width, Math.floor(i / width)];
    return value && Math.abs(col - middle) <= cells && Math.abs(row - middle) <= cells ? 1 : 0;
  });
  const image = withHeights(
    face.image,
    face.image.z,
    left.map((value, i) => value & face.image.mask[i]),
  );
  return { ...face, detail: withHeights(face.detail, z, left), image, fine: face.fine && within(face.fine, image) };
}

describe('a face of which next to nothing is seen', () => {
  it.each([0, 1, 3])('is weighed as nothing and never found, %i cells each way from the middle', (cells) => {
    const scrap = { ...subject, face: scrapOf(subject.face, cells) };
    for (const [a, b] of [
      [reference, scrap],
      [scrap, reference],
    ]) {
      expect(searchFaces(a.face, b.face).best.significance).toBeLessThan(12);
      const fit = fitFaces(a, b);
      expect(fit.found).toBe(false);
      expect(fit.doubts.length).toBeGreaterThan(0);
    }
  });
});
