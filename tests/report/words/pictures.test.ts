import { describe, expect, it } from 'vitest';
import { type LampsShown, type LookStep, parseLook, type ShownWay } from '../../../src/core/read/index.ts';
import { lampWords, pictureWords, viewWords } from '../../../src/core/report/words/index.ts';
import { expectSentence } from './said.ts';

const asItIs = { view: 'asItIs' } as const;
const lit: LampsShown = {
  ...{ code: 'lamps', ...asItIs, exaggeration: 1, castShadows: false, soft: 0, softRadiusMm: 2 },
  lamps: [{ azimuthDeg: 315, heightDeg: 12 }],
};
const angles = 'Azimuth clockwise from the top of the picture, height above the face plane.';

/** One step of every kind, and what is said of it. */
const steps: ReadonlyArray<readonly [step: object, words: string]> = [
  [{ do: 'fromStart' }, 'again from the relief as scanned'],
  [{ do: 'removeForm', order: 1 }, 'plane removed'],
  [{ do: 'removeForm', order: 2 }, 'second-order form removed'],
  [{ do: 'formRemoved', wavelengthMm: 8 }, 'form above 8 mm removed (rings at cracks)'],
  [{ do: 'smooth', wavelengthMm: 0.2 }, 'smoothed below 0.2 mm'],
  [{ do: 'bandPass', fromMm: 0.1, toMm: 6 }, 'band 0.1 to 6 mm kept (rings at cracks)'],
  [{ do: 'edgeAwareBase', sizeMm: 0.5, edgeMm: 0.02 }, 'smoothed at 0.5 mm except at edges over 0.02 mm'],
  [{ do: 'edgeAwareDetail', sizeMm: 3, edgeMm: 0.2 }, 'detail finer than 3 mm, edges over 0.2 mm left out'],
  [{ do: 'localHeight', meanMm: 3 }, 'local height over 3 mm (rings at cracks)'],
  [{ do: 'exaggerate', factor: 2 }, 'heights × 2'],
  [
    { do: 'light', lamps: [{ azimuthDeg: 315, heightDeg: 20 }], castShadows: true },
    'light from azimuth 315°, height 20°, cast shadows',
  ],
  [{ do: 'lightAcross', share: 0.5 }, 'lit across strokes of 0.4 mm from 315° ± 90°, height 20° (0.5)'],
  [{ do: 'skyView', radiusMm: 1, over: 'multiply' }, 'sky-view factor within 1 mm (multiply, 1)'],
  [{ do: 'openness', radiusMm: 1 }, 'openness within 1 mm'],
  [{ do: 'curvature', scaleMm: 0.15 }, 'ridges and valleys at 0.15 mm (rings at cracks)'],
  [{ do: 'curvature', scaleMm: 0.15, show: 'valleys' }, 'valleys at 0.15 mm (rings at cracks)'],
  [{ do: 'heights' }, 'heights as grey'],
  [{ do: 'principalShading', component: 2 }, 'principal component 2 of 16 shadings, height 35°'],
  [
    { do: 'exaggeratedShading', finestMm: 0.1, scales: 4, lamp: { azimuthDeg: 300, heightDeg: 30 } },
    'exaggerated shading, 4 scales from 0.1 mm, azimuth 300°, height 30° (soft border at cracks)',
  ],
];

describe('under a picture', () => {
  it('stands every lamp with its angles', () => {
    expect(lampWords({ azimuthDeg: 45.25, heightDeg: 30, strength: 0.4 })).toBe(
      'azimuth 45.3°, height 30°, strength 0.4',
    );
    expect(pictureWords(lit)).toBe(`Lamp from azimuth 315°, height 12°; shown as it is. ${angles}`);
    const more = { lamps: [...lit.lamps, { azimuthDeg: 50, heightDeg: 35 }], castShadows: true, soft: 0.25 };
    expect(pictureWords({ ...lit, ...more, exaggeration: 2 })).toBe(
      `2 lamps from azimuth 315°, height 12°; azimuth 50°, height 35°; 25 % soft light, horizon within 2 mm; with cast shadows; heights × 2; shown as it is. ${angles}`,
    );
    expect(pictureWords({ ...lit, lamps: [], soft: 1 })).toContain('Soft light from an even sky, horizon within 2 mm;');
  });

  it('stands the half circle of light across strokes', () => {
    const across = { strokeMm: 0.4, middleAzimuthDeg: 315, heightDeg: 20, exaggeration: 2, ...asItIs };
    expect(pictureWords({ code: 'across', ...across })).toBe(
      `Lit across each stroke (0.4 mm), azimuth between 225° and 45° by way of 315°, height 20°; heights × 2; shown as it is. ${angles}`,
    );
  });

  it.each(steps)('stands the step %j', (step, words) => {
    const look = parseLook({ name: 'Mine', steps: [step] });
    expect(pictureWords({ code: 'look', ...look, ...asItIs })).toBe(`Mine: ${words}; shown as it is.`);
  });

  it('stands each step there is', () => {
    const told: Record<LookStep['do'], true> = Object.fromEntries(
      steps.map(([step]) => [(step as LookStep).do, true]),
    ) as Record<LookStep['do'], true>;
    expect(Object.keys(told)).toHaveLength(17);
  });

  it.each<[ShownWay, string]>([
    [asItIs, 'shown as it is'],
    [{ view: 'mirrored' }, 'shown mirrored (no object looks like this)'],
    [{ view: 'turnedOver', sense: 'intaglio' }, 'shown as its impression (turned over)'],
    [{ view: 'turnedOver', sense: 'relief' }, 'shown as its matrix (turned over)'],
    [{ view: 'turnedOver' }, 'shown turned over'],
  ])('stands which way the object is shown: %j', (way, words) => {
    expect(viewWords(way)).toBe(words);
    expect(pictureWords({ ...lit, ...way })).toContain(`; ${words}.`);
  });

  it('stands another way, or none, where the caller says so', () => {
    expect(pictureWords(lit, '')).toBe(`Lamp from azimuth 315°, height 12°. ${angles}`);
    const look = { code: 'look', ...parseLook({ name: 'Mine', steps: [{ do: 'heights' }] }), ...asItIs } as const;
    expect(pictureWords(look, '')).toBe('Mine: heights as grey.');
    expect(pictureWords(look, 'turned before')).toBe('Mine: heights as grey; turned before.');
  });

  it('of a back stands what was made out, and always that it may be a living handler’s', () => {
    for (const proposal of ['present', 'absent', 'notJudged'] as const)
      for (const sharp of [true, false]) {
        const words = pictureWords({ code: 'ridges', sharp, proposal, areaMm2: 41.6 });
        expectSentence(words);
        expect(words).toContain('living handler’s');
        expect(words.includes('blurred')).toBe(!sharp);
        expect(words.includes('over 42 mm²')).toBe(proposal === 'present');
      }
  });
});
