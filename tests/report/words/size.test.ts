import { describe, expect, it } from 'vitest';
import type { ChainEnd, Material, SizeReading } from '../../../src/core/compare/index.ts';
import { sizeWords } from '../../../src/core/report/words/index.ts';
import { type ExamplesOf, expectSentence } from './said.ts';

const materials: Readonly<Record<Material, true>> = {
  ...{ pouredWax: true, pressedWax: true, wax: true, plaster: true },
  ...{ condensationSilicone: true, silicone: true, castMetal: true },
};
const ends: readonly ChainEnd[] = [
  { code: 'matrix' },
  { code: 'mouldOfImpression' },
  ...(Object.keys(materials) as Material[]).flatMap((material): ChainEnd[] => [
    { code: 'cast', material },
    { code: 'impression', material },
  ]),
];
const both = [true, false];
const range = [0.966, 0.998] as const;

const readings: ExamplesOf<SizeReading> = {
  ratio: [0.98, 1, 1.02].map((ratio) => ({ code: 'ratio', ratio, sd: 0.001, same: ratio === 1 })),
  scaleAssumed: [
    { code: 'scaleAssumed', whose: ['subject'], percent: 0.3 },
    { code: 'scaleAssumed', whose: ['reference', 'subject'], percent: 0.3 },
  ],
  ratioUncertain: [{ code: 'ratioUncertain' }],
  rolesUnsure: [{ code: 'rolesUnsure' }],
  oneMatrix: ends.flatMap((subject) =>
    both.map((agrees) => ({ code: 'oneMatrix', reference: { code: 'matrix' }, subject, range, agrees }) as const),
  ),
  recast: both.map((agrees) => ({ code: 'recast', direct: range, throughWax: [1, 1], agrees })),
  copyOfMatrix: both.map((passes) => ({ code: 'copyOfMatrix', range, passes })),
  uneven: [{ code: 'uneven', x: 0.99, y: 0.98, sd: 0.001 }],
  depthUnknown: [{ code: 'depthUnknown' }],
  depthAsSize: [{ code: 'depthAsSize' }],
  depthWorn: [{ code: 'depthWorn', lacksPercent: 31 }],
  shallower: [{ code: 'shallower', percent: 12.4 }],
  deeper: [{ code: 'deeper', percent: 12.4 }],
};

describe('the words of size', () => {
  it.each(Object.entries(readings))('%s is said in a sentence', (_, examples) => {
    for (const reading of examples) expectSentence(sizeWords(reading));
  });

  it('tell every material and every end of the chain apart', () => {
    const said = ends.map((subject) =>
      sizeWords({ code: 'oneMatrix', reference: { code: 'matrix' }, subject, range, agrees: true }),
    );
    expect(new Set(said).size).toBe(ends.length);
  });
});
