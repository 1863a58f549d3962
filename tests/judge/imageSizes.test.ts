import { describe, expect, it } from 'vitest';
import { findOutline } from '../../src/core/face/index.ts';
import type { Fit } from '../../src/core/fit/index.ts';
import { emptyGrid, identity, xOf, yOf } from '../../src/core/geometry/index.ts';
import type { Asked } from '../../src/core/judge/asked.ts';
import * as judge from '../../src/core/judge/imageSizes.ts';
import type { Finding } from '../../src/core/judge/types.ts';
import { fitWith } from './fitWith.ts';

const fitOf = (scale: number) =>
  fitWith({
    models: [
      { model: 'oneScale', scale, scaleSd: 0.001, rmsMm: 0.02, heldOutRmsMm: 0.02, referenceFromSubject: identity },
    ],
  });

/** A plane oval. */
function face(widthMm: number, heightMm: number) {
  const detail = emptyGrid(-widthMm, widthMm, -heightMm, heightMm, 0.2);
  for (let i = 0; i < detail.mask.length; i++) {
    const [x, y] = [xOf(detail, i % detail.width), yOf(detail, Math.floor(i / detail.width))];
    detail.mask[i] = Math.hypot((2 * x) / widthMm, (2 * y) / heightMm) <= 1 ? 1 : 0;
  }
  return { detail, image: detail, outline: findOutline(detail, detail.mask), senseConfidence: 0.9 };
}

const matrix = face(40, 62);
/** The cake is far larger than what was pressed into it. */
const cake = face(50, 70);
const asked = (senses: Asked['senses'], confidence = 0.99): Asked => ({
  question: 'madeFrom',
  senses,
  confidence,
  statedAgainstFit: false,
});

const imageSizes = (reference: Sized, subject: Sized, fit: Fit, question: Asked, finding: Finding): judge.OwnImages =>
  judge.imageSizes(judge.ownImages(reference, subject, question), fit, question, finding);

type Sized = Parameters<typeof judge.ownImages>[0];

describe('the image of an impression', () => {
  it('is the matrix’s own, scaled by the fit, and never the cake', () => {
    const [own, scaled] = imageSizes(matrix, cake, fitOf(1.02), asked(['intaglio', 'relief']), 'supported');
    expect(own).toMatchObject({ from: 'itself', edge: 'matrixEdge', shape: 'oval' });
    expect(Math.abs((own?.heightMm ?? 0) - 62)).toBeLessThan(0.2);
    expect(Math.abs((own?.widthMm ?? 0) - 40)).toBeLessThan(0.2);
    expect(scaled?.heightMm).toBeCloseTo((own?.heightMm ?? 0) / 1.02, 9);
    expect(scaled).toMatchObject({ from: 'partner', shape: 'oval' });
  });

  it('is the same whichever of the two is the reference', () => {
    const [, there] = imageSizes(matrix, cake, fitOf(1.02), asked(['intaglio', 'relief']), 'supported');
    const [back] = imageSizes(cake, matrix, fitOf(1 / 1.02), asked(['relief', 'intaglio']), 'supported');
    expect(back?.heightMm).toBeCloseTo(there?.heightMm ?? 0, 9);
  });

  it('is not told where one matrix is not supported; the matrix’s own is', () => {
    const [own, pressed] = imageSizes(matrix, cake, fitOf(1), asked(['intaglio', 'relief']), 'undecided');
    expect(own).toMatchObject({ from: 'itself' });
    expect(pressed).toBeNull();
  });

  it('is not told where the roles are not sure, and of two positives', () => {
    const none = [null, null];
    expect(imageSizes(matrix, cake, fitOf(1), asked(['intaglio', 'relief'], 0.7), 'supported')).toEqual(none);
    const two = { ...asked(['relief', 'relief']), question: 'oneMatrix' } as const;
    expect(imageSizes(cake, cake, fitOf(1), two, 'supported')).toEqual(none);
  });

  it('is not the cake’s where a file wound the wrong way makes a negative of it', () => {
    const negatives = { ...asked(['intaglio', 'intaglio']), question: 'oneParent' } as const;
    const turned = { ...cake, senseConfidence: 0.1 };
    const [own, none] = imageSizes(matrix, turned, fitOf(1), negatives, 'supported');
    expect(own).toMatchObject({ from: 'itself' });
    expect(none).toBeNull();
  });
});
