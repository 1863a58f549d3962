import { describe, expect, it } from 'vitest';
import { identity } from '../../src/core/geometry/index.ts';
import type { Asked } from '../../src/core/judge/asked.ts';
import { imageSizes } from '../../src/core/judge/imageSizes.ts';
import { fitWith } from './fitWith.ts';

const fitOf = (scale: number) =>
  fitWith({
    models: [
      { model: 'oneScale', scale, scaleSd: 0.001, rmsMm: 0.02, heldOutRmsMm: 0.02, referenceFromSubject: identity },
    ],
  });

const face = (widthMm: number, heightMm: number) => ({
  outline: { shape: 'pointedOval' as const, widthMm, heightMm, polygon: new Float64Array(0), confidence: 1 },
});
const matrix = face(40, 62);
/** The cake is far larger than what was pressed into it. */
const cake = face(50, 70);
const asked = (senses: Asked['senses'], confidence = 0.99): Asked => ({
  question: 'madeFrom',
  senses,
  confidence,
  statedAgainstFit: false,
});

describe('the image of an impression', () => {
  it('is the matrix’s own, scaled by the fit, and never the cake', () => {
    const [own, scaled] = imageSizes(matrix, cake, fitOf(1.02), asked(['intaglio', 'relief']), 'supported');
    expect(own).toMatchObject({ widthMm: 40, heightMm: 62, from: 'itself', edge: 'matrixEdge', shape: 'pointedOval' });
    expect(scaled?.heightMm).toBeCloseTo(62 / 1.02, 9);
    expect(scaled).toMatchObject({ from: 'partner', shape: 'pointedOval' });
  });

  it('is the same whichever of the two is the reference', () => {
    const [, there] = imageSizes(matrix, cake, fitOf(1.02), asked(['intaglio', 'relief']), 'supported');
    const [back] = imageSizes(cake, matrix, fitOf(1 / 1.02), asked(['relief', 'intaglio']), 'supported');
    expect(back?.heightMm).toBeCloseTo(there?.heightMm ?? 0, 9);
  });

  it('is not told where one matrix is not supported, the roles are not sure, or two are of one sense', () => {
    const none = [null, null];
    const senses = ['intaglio', 'relief'] as const;
    expect(imageSizes(matrix, cake, fitOf(1), asked(senses), 'undecided')).toEqual(none);
    expect(imageSizes(matrix, cake, fitOf(1), asked(senses, 0.7), 'supported')).toEqual(none);
    const two = { ...asked(['relief', 'relief']), question: 'oneMatrix' } as const;
    expect(imageSizes(cake, cake, fitOf(1), two, 'supported')).toEqual(none);
  });
});
