import { beforeAll, describe, expect, it } from 'vitest';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { faceMotion } from '../../src/core/fit/index.ts';
import { apply, invert } from '../../src/core/geometry/index.ts';
import { type Comparison, comparePrepared } from '../../src/core/pipeline.ts';
import { prepared } from '../bench/pairs.ts';

// Referee: the pair itself, compared in the other order. The law: the same two files in either order give one answer.
describe('a pair in either order', () => {
  let there: Comparison;
  let back: Comparison;
  beforeAll(async () => {
    const { reference, subject } = makePair(
      randomRecipe(7, 'same', { vertices: 16_000, coverage: [0.8, 1], wear: [0, 0.3], warpMm: [0.05, 0.1] }),
    );
    const [die, wax] = [await prepared(reference, 'reference'), await prepared(subject, 'subject')];
    there = comparePrepared(die, wax);
    back = comparePrepared(wax, die);
  });

  it('has the same finding, score, interval and gates, to the last digit', () => {
    expect(there.fit.found).toBe(true);
    const told = ({ judgement: { finding, strength, score, interval, gates } }: Comparison) => ({
      finding,
      strength,
      score,
      interval,
      // A second blow is looked for anew only where the answer hangs on it.
      gates: gates.filter(({ code }) => code !== 'struckTwice'),
    });
    expect(told(back)).toEqual(told(there));
  });

  it('tells each landmark on the face of its own reference', () => {
    const one = there.judgement.constellation?.landmarks ?? [];
    const other = back.judgement.constellation?.landmarks ?? [];
    expect(other).toHaveLength(one.length);
    expect(one.length).toBeGreaterThan(10);
    const fromOther = invert(faceMotion(there.reference.face, there.subject.face, there.fit.models[1]));
    const scale = fromOther.scale;
    other.forEach((landmark, k) => {
      const { x, y, dx, dy } = one[k];
      // The warp, some tenths of a millimetre, is all that the similarity leaves over.
      const [u, v] = apply(fromOther, [x + dx, y + dy, 0]);
      expect(Math.hypot(landmark.x - u, landmark.y - v)).toBeLessThan(0.5);
      // A tilt between the two faces shortens by its cosine.
      expect(Math.hypot(landmark.dx, landmark.dy) / (scale * Math.hypot(dx, dy))).toBeCloseTo(1, 3);
      expect(landmark.ellipse.majorMm).toBeCloseTo(scale * one[k].ellipse.majorMm, 3);
    });
  });

  it('counts the same cells', () => {
    const { cells } = there.judgement;
    expect(back.judgement.cells).toMatchObject({ compared: cells.compared, congruent: cells.congruent });
  });
});
