import { describe, expect, it } from 'vitest';
import type { Band } from '../../../src/core/design/index.ts';
import {
  type Composite,
  cardLanguages,
  type LookStep,
  lookSchema,
  type MeetingEdge,
} from '../../../src/core/read/index.ts';
import { printCaption } from '../../../src/core/report/index.ts';
import {
  bandWords,
  captionWords,
  compositeWords,
  facingDoubtWords,
  fragmentsWords,
  letterSenseWords,
  pictureWords,
  printed,
  stripWords,
} from '../../../src/core/report/words/index.ts';
import { expectPrintable } from './said.ts';

const others = cardLanguages.filter((language) => language !== 'en');
const steps: LookStep[] = lookSchema.parse({
  name: 'All',
  steps: [
    { do: 'removeForm', order: 1 },
    { do: 'formRemoved', wavelengthMm: 4.5 },
    { do: 'smooth', wavelengthMm: 0.25 },
    { do: 'bandPass', fromMm: 0.2, toMm: 2 },
    { do: 'edgeAwareBase', sizeMm: 1.5, edgeMm: 0.1 },
    { do: 'edgeAwareDetail', sizeMm: 1.5, edgeMm: 0.1 },
    { do: 'localHeight', meanMm: 6.5, asMm: 0.1 },
    { do: 'exaggerate', factor: 2 },
    {
      do: 'light',
      lamps: [
        { azimuthDeg: 315, heightDeg: 20.5 },
        { azimuthDeg: 50, heightDeg: 35, strength: 0.35 },
      ],
    },
    { do: 'lightAcross' },
    { do: 'skyView', radiusMm: 2.5 },
    { do: 'openness', radiusMm: 2.5 },
    { do: 'curvature', scaleMm: 0.15, show: 'ridges', share: 0.35 },
    { do: 'heights' },
    { do: 'principalShading', component: 1 },
    { do: 'exaggeratedShading' },
  ],
}).steps;
const overlap = { code: 'twoImpressions', one: 'A', two: 'B', mm2: 12.4, depthMm: 1.5 } as const;
const edge: MeetingEdge = {
  ...{ one: 'A', two: 'B', lengthMm: 31.2, gapMm: -0.84, gap90Mm: 1.14, stepMm: 0.151 },
};
const strip = (sense: 'intaglio' | 'relief', twoWays: boolean) =>
  ({
    strip: {
      band: { sense, lettersInnerMm: 7.2, lettersOuterMm: 2.5 } as Band,
      facing: 'inward',
      pieces: [{ from: 0, to: 1, facing: twoWays ? 'outward' : 'inward' }],
    },
    letters: { sense: 'mirroredUpright', decided: true },
    startDeg: 12.5,
  }) as unknown as Parameters<typeof stripWords>[0];
const composite = (refused: boolean): Composite =>
  ({
    ...{ refused, names: ['a', 'b', 'c'], shares: [0.6, 0.4, 0], stateUntold: ['b'] },
    leftOut: [
      { name: 'c', code: 'kin', of: 'a', isCopy: true },
      { name: 'd', code: 'notSupported', finding: null },
    ],
  }) as unknown as Composite;

/** Everything that is said under pictures, in one language. */
const all = (language: (typeof cardLanguages)[number]): string[] => [
  printCaption({ printScale: 1, dpi: 600, simulated: true, credit: 'X', language }),
  printCaption({ printScale: 1.5, dpi: 300, language }),
  pictureWords({ code: 'look', name: 'All', steps, view: 'mirrored' }, undefined, language),
  ...(['intaglio', 'relief'] as const).map((sense) =>
    pictureWords(
      {
        ...{ code: 'lamps', view: 'turnedOver', sense, lamps: [{ azimuthDeg: 315, heightDeg: 12.5 }] },
        ...{ exaggeration: 1.5, castShadows: true, soft: 0.2, softRadiusMm: 2.5 },
      },
      undefined,
      language,
    ),
  ),
  ...[true, false].map((both) => stripWords(strip(both ? 'intaglio' : 'relief', both), language)),
  ...(['upright', 'upsideDown', 'mirroredUpright'] as const).map((sense) =>
    letterSenseWords({ sense, decided: true } as Parameters<typeof letterSenseWords>[0], language),
  ),
  facingDoubtWords(['cutUnsure'], language),
  facingDoubtWords(['senseUnsure'], language),
  bandWords({ confidence: 0.25, doubts: ['noLine', 'noInnerLine', 'noOuterLine', 'uncertain'] }, 0, language),
  ...[true, false].map((refused) => compositeWords(composite(refused), language)),
  fragmentsWords(
    {
      names: ['A (a.ply)', 'B (b.ply)'],
      reference: 'm.ply',
      undecided: ['B'],
      share: 0.78,
      edges: [edge],
      overlaps: [overlap],
    },
    language,
  ),
  fragmentsWords({ names: ['A'], reference: 'm', undecided: [], share: 0.78, edges: [], overlaps: [] }, language),
];

/** French sets a space before its colons and semicolons, and a German article is no matrix. */
const plain = (words: string): string => words.replaceAll(/ ([:;])/g, '$1').replaceAll(/\bdie\b/gi, 'jene');

describe('captions', () => {
  it.each(cardLanguages)('are sentences without holes in %s', (language) => {
    for (const words of all(language)) {
      expectPrintable(plain(words));
      expect(words).toMatch(/^[A-Z\d].*\.$/s);
    }
  });

  it.each(others)('have nothing left in English in %s, and decimal commas', (language) => {
    for (const words of all(language)) {
      expect(words).not.toMatch(/\b(the|and|of|from|with|shown|height|letters|which|left)\b/i);
      expect(words).not.toMatch(/\d\.\d/);
    }
    const named = [captionWords[language].strip, captionWords[language].ways, captionWords[language].card];
    for (const words of named.flatMap((each) => Object.values(each)).filter((each) => typeof each === 'string'))
      expectPrintable(plain(words));
  });

  it('a number is printed with the decimal sign of its language', () => {
    expect(cardLanguages.map((language) => printed(1.5, captionWords[language]))).toEqual(['1.5', '1,5', '1,5', '1,5']);
  });
});
