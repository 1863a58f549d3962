import { describe, expect, it } from 'vitest';
import { plateFromFace } from '../../src/app/plate/frames.ts';
import { restingView } from '../../src/app/state/document.ts';
import {
  apply,
  compose,
  determinant3,
  identity,
  rotationAbout,
  type Similarity,
  turnOver,
} from '../../src/core/geometry/index.ts';
import type { ComparisonView, FaceView } from '../../src/workers/browser/protocol.ts';

const matrix = { sense: 'intaglio' } as FaceView;
const wax = { sense: 'relief' } as FaceView;
/** The wax laid face to face on the matrix, with a little turn and shrinkage. */
const laid: Similarity = compose(turnOver, {
  scale: 1.012,
  rotation: rotationAbout([0, 0, 1], 0.3),
  translation: [0.4, -0.2, 0.1],
});
const comparison = {
  fit: { found: true, chosen: 'oneScale' },
  referenceFaceFromSubjectFace: { oneScale: laid },
} as unknown as ComparisonView;
const asImpression = { model: 'chosen', view: restingView } as const;
const asIs = { model: 'chosen', view: { ...restingView, engraved: 'asIs' } } as const;

describe('faces on the plate', () => {
  it('lies a matrix over, so that it reads as its impression, and back when it is shown as it is', () => {
    expect(plateFromFace('reference', matrix, matrix, comparison, asImpression)).toEqual(turnOver);
    const shown = plateFromFace('reference', matrix, matrix, comparison, asIs);
    expect(apply(shown, [1, 2, 3])).toEqual([1, 2, 3]);
  });

  it('lays matching places of matrix and wax on the same place', () => {
    const place = [3, -4, 0.5] as const;
    const onMatrix = apply(laid, place);
    const a = apply(plateFromFace('reference', matrix, matrix, comparison, asImpression), onMatrix);
    const b = apply(plateFromFace('subject', wax, matrix, comparison, asImpression), place);
    for (const i of [0, 1, 2]) expect(b[i]).toBeCloseTo(a[i], 12);
  });

  it('never mirrors', () => {
    for (const view of [asImpression, asIs])
      for (const face of [matrix, wax])
        for (const role of ['reference', 'subject'] as const)
          expect(determinant3(plateFromFace(role, face, matrix, comparison, view).rotation)).toBeCloseTo(1, 12);
  });

  it('shows a raised face as it is while nothing is fitted', () => {
    expect(plateFromFace('subject', wax, matrix, undefined, asImpression)).toEqual(identity);
  });

  it('turns a rival clockwise as seen', () => {
    const turned = plateFromFace('subject', wax, wax, undefined, { ...asImpression, rivalTurnDeg: 90 });
    const [x, y] = apply(turned, [0, 1, 0]);
    expect(x).toBeCloseTo(1, 12);
    expect(y).toBeCloseTo(0, 12);
  });
});
