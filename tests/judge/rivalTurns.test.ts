import { describe, expect, it } from 'vitest';
import type { Face } from '../../src/core/face/index.ts';
import type { FitModel } from '../../src/core/fit/index.ts';
import { identity, rotationAbout, type Similarity } from '../../src/core/geometry/index.ts';
import { evidenceDefaults, findingOf, fittedGates } from '../../src/core/judge/gates.ts';
import { measurePlaces } from '../../src/core/judge/measure.ts';
import { weighSeen } from '../../src/core/judge/rivals.ts';
import { withRivalsTold } from '../../src/core/judge/rivalTurns.ts';
import { analyticFace, disc, waves } from './analyticFace.ts';
import { fitWith } from './fitWith.ts';

/** The finding of a face beside itself where another turn agrees nearly as well as the true one, by all the search knows. */
function findingBeside(design: (x: number, y: number) => number, turnDeg: number, motion?: Similarity): string {
  const { image, ...rest } = analyticFace(design, disc());
  const face = { ...rest, image, detail: image, faceFromScan: identity } as Face;
  const model = { model: 'oneScale', referenceFromSubject: identity, scale: 1 } as FitModel;
  const fit = fitWith({
    models: [model, model, model],
    rivalTurns: [{ turnDeg, score: 0.89, ...(motion && { referenceFromSubject: motion }) }],
  });
  const places = measurePlaces(face, face, fit);
  const weighed = weighSeen(places);
  if (!weighed) return 'nothing seen';
  const gates = fittedGates(fit, places, weighed, false, evidenceDefaults);
  expect(findingOf(gates)).toBe('undecided');
  return findingOf(withRivalsTold(gates, face, face, fit, weighed, evidenceDefaults));
}

const turned = (deg: number): Similarity => ({
  ...identity,
  rotation: rotationAbout([0, 0, 1], (deg * Math.PI) / 180),
});
const lettered = waves(5);

describe('rival turns', () => {
  it('are told away where nothing lies in its place there', () => {
    expect(findingBeside(lettered, 90, turned(90))).toBe('supported');
  });

  it('stay where the design repeats itself', () => {
    const twice = (x: number, y: number): number => lettered(x, y) + lettered(-x, -y);
    expect(findingBeside(twice, 180, turned(180))).toBe('undecided');
    expect(findingBeside(twice, 90, turned(90))).toBe('supported');
  });

  it('stay where it is not known how the faces would lie there', () => {
    expect(findingBeside(lettered, 90)).toBe('undecided');
  });
});
