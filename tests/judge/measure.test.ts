import { describe, expect, it } from 'vitest';
import type { Face } from '../../src/core/face/index.ts';
import type { FitModel } from '../../src/core/fit/index.ts';
import { identity } from '../../src/core/geometry/index.ts';
import { measureDefaults, measurePlaces } from '../../src/core/judge/measure.ts';
import { analyticFace, disc, waves } from './analyticFace.ts';
import { fitWith } from './fitWith.ts';

const motif = waves(5);
const isField = ({ x, y }: { x: number; y: number }): boolean => Math.hypot(x, y) > 6.5;

/** What is measured in the field round one motif, where each of two faces has waves of its own, so many times as high. */
function fieldOf(high: number) {
  const face = (seed: number): Face => {
    const own = waves(seed);
    const design = (x: number, y: number): number => (Math.hypot(x, y) < 5 ? motif(x, y) : high * own(x, y));
    const { image, ...rest } = analyticFace(design, disc());
    return { ...rest, image, detail: image, faceFromScan: identity } as Face;
  };
  const model = { model: 'oneScale', referenceFromSubject: identity, scale: 1 } as FitModel;
  const { seen, absent } = measurePlaces(face(6), face(7), fitWith({ models: [model, model, model] }));
  return { seen: seen.filter(isField), absent: absent.filter(isField) };
}

describe('measurePlaces', () => {
  const { below } = measureDefaults.doubt;

  it('takes the unevenness of a field for no design: places there are doubted, and none is missed', () => {
    const { seen, absent } = fieldOf(0.02);
    expect(seen.map(({ doubt }) => doubt).filter((doubt) => doubt !== below)).toEqual([]);
    expect(absent).toEqual([]);
  });

  it('misses what stands as high as the motif and corresponds to nothing', () => {
    expect(fieldOf(1).absent.length).toBeGreaterThan(5);
  });
});
