import { describe, expect, it } from 'vitest';
import { changeOf, copyOverMatrix, recastOverImpression, sizeFromMatrix } from '../../src/core/compare/materials.ts';

/** Least and greatest linear size, cast ÷ mould, as docs/compare.md and the table of materials give them. */
const published = {
  'poured beeswax': [0.966, 0.988],
  'pressed wax': [0.99, 0.998],
  'sealing wax': [0.99, 0.998],
  wax: [0.966, 0.998],
  plaster: [1.0005, 1.0035],
  'dental stone': [1.0005, 1.0035],
  'condensation silicone': [0.988, 0.992],
  'addition silicone': [0.988, 0.999],
  bronze: [0.974, 0.99],
} as const;

const times = (...ranges: ReadonlyArray<readonly [number, number]>): [number, number] => [
  ranges.reduce((all, [least]) => all * least, 1),
  ranges.reduce((all, [, most]) => all * most, 1),
];

const close = (found: readonly [number, number], expected: readonly [number, number]): void => {
  expect(found[0]).toBeCloseTo(expected[0], 9);
  expect(found[1]).toBeCloseTo(expected[1], 9);
};

describe('how materials change their size', () => {
  it.each(Object.entries(published))('%s', (material, range) => {
    expect(changeOf(material)?.range).toEqual(range);
  });

  // The chains are multiplied here from the table above: a figure that stands twice and drifts is seen.
  it('chains are the products of their steps', () => {
    const { wax, plaster, bronze, 'addition silicone': mould, 'poured beeswax': poured } = published;
    close(sizeFromMatrix({ sense: 'relief', kind: 'impression' }).range, wax);
    close(sizeFromMatrix({ sense: 'intaglio', kind: 'mould' }).range, times(wax, mould));
    close(sizeFromMatrix({ sense: 'relief', kind: 'cast' }).range, [times(wax, mould, plaster)[0], plaster[1]]);
    close(recastOverImpression.throughWax, times(poured, mould, bronze));
    close(copyOverMatrix, times(mould, bronze));
  });

  it('every step of a chain by itself agrees with the step inside a longer one', () => {
    const withBronze = sizeFromMatrix({ sense: 'relief', kind: 'cast', material: 'bronze' }).range;
    const withPlaster = sizeFromMatrix({ sense: 'relief', kind: 'cast', material: 'plaster' }).range;
    expect(withBronze[0] / withPlaster[0]).toBeCloseTo(published.bronze[0] / published.plaster[0], 9);
  });
});
