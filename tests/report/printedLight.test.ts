import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type PreparedScan, prepareScan } from '../../src/core/pipeline.ts';
import { cardLanguages, light, standardLooks } from '../../src/core/read/index.ts';
import { type PrintOptions, printCaption, printedLook, printPlate } from '../../src/core/report/index.ts';

/** The samples with the steepest relief: an engraved matrix and a deep impression. */
const faces = await Promise.all(
  ['averholt-matrix.glb', 'averholt-impression-good.glb'].map(async (name): Promise<PreparedScan['face']> => {
    const bytes = new Uint8Array(readFileSync(`sample-scans/${name}`));
    return (await prepareScan({ name, bytes }, {})).face;
  }),
);
const size = { printScale: 1, dpi: 150 } as const;

/** Of both plates the greatest share of dots that are pure black or white. */
function pureShare(asked: Partial<PrintOptions>): number {
  const shares = faces.map((face) => {
    const [{ grey, mask }] = printPlate([{ face, view: 'asItIs', kind: 'matrix' }], { ...size, ...asked }).pictures;
    const shown = grey.filter((_, i) => mask[i]);
    return shown.filter((value) => value === 0 || value === 255).length / shown.length;
  });
  return Math.max(...shares);
}

describe('a printed plate has under 2 % pure black or white', () => {
  it.each(standardLooks.map((look) => [look.name, look] as const))('in the look %s', (_, look) => {
    expect(pureShare({ look: printedLook(look, 'en') })).toBeLessThan(0.02);
  });

  it.each([5, 12, 25, 60])('under a lamp at %d°, with and without shadows', (heightDeg) => {
    const lamps = [{ azimuthDeg: 315, heightDeg }];
    for (const castShadows of [false, true]) expect(pureShare({ lamps, castShadows })).toBeLessThan(0.02);
  });

  it('under its own lamps, with shadows or more soft light', () => {
    for (const asked of [{}, { castShadows: true }, { soft: 0.5 }, { soft: 1 }])
      expect(pureShare(asked)).toBeLessThan(0.02);
  });

  it('unless no soft light at all is asked for', () => {
    const lamps = [{ azimuthDeg: 315, heightDeg: 12 }];
    expect(pureShare({ lamps, soft: 0, castShadows: true })).toBeGreaterThan(0.1);
  });
});

describe('light with its highlights held', () => {
  it('leaves what is no brighter than the field as it was, and keeps the order of what is', () => {
    const { detail } = faces[0];
    const lamps = [{ azimuthDeg: 315, heightDeg: 60 }];
    const [plain, held] = [false, true].map((holdHighlights) => light(detail, lamps, { holdHighlights }).grey);
    const dark = plain.map((value, i) => (value <= 110 ? Math.abs(value - held[i]) : 0));
    expect(Math.max(...dark)).toBe(0);
    expect(held.every((value, i) => value <= plain[i])).toBe(true);
    const byGrey = new Map<number, number>();
    plain.forEach((value, i) => {
      byGrey.set(value, Math.max(held[i], byGrey.get(value) ?? 0));
    });
    const rising = [...byGrey].sort(([a], [b]) => a - b).map(([, value]) => value);
    expect(rising).toEqual([...rising].sort((a, b) => a - b));
  });
});

describe('what is said of the light', () => {
  it.each(cardLanguages)('is whole in %s', (language) => {
    const lamps = [{ azimuthDeg: 315, heightDeg: 12.5 }];
    const caption = printCaption({ ...size, lamps, castShadows: true, language });
    expect(caption).toContain('20 %');
    expect(caption).toMatch(language === 'en' ? /12\.5°/ : /12,5°/);
    const { says } = printedLook(standardLooks[1], language);
    expect(says).toMatch(language === 'en' ? /0\.2/ : /0,2/);
  });

  it('is the plates’ own where nothing was asked', () => {
    expect(printCaption(size)).toMatch(/^Natural size at 150 dots per inch\. Lit from azimuth 315°/);
    expect(printCaption({ ...size, soft: 0.3 })).toContain('30 % soft light');
    expect(printCaption({ ...size, soft: 0.3 })).toContain('held below white');
  });

  it('adds no fill where a look states its own soft light', () => {
    const lamps = [{ azimuthDeg: 315, heightDeg: 30 }];
    const look = { name: 'Mine', steps: [{ do: 'light', lamps, soft: 0.4 }] } as const;
    expect(printedLook({ ...look, steps: [...look.steps] }, 'en').says).not.toContain('0.2');
  });
});
