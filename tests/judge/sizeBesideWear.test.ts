import { describe, expect, it } from 'vitest';
import type { SizeReading } from '../../src/core/compare/index.ts';
import type { WearZone } from '../../src/core/condition/index.ts';
import { sizeBesideWear } from '../../src/core/judge/sizeBesideWear.ts';
import { zonePhrase } from '../../src/core/report/words/phrases.ts';

const readings: SizeReading[] = [{ code: 'ratio', ratio: 0.99, sd: 0.004, same: false }, { code: 'depthAsSize' }];
const zones = (heightKept: number, heightKeptSd: number): { zones: WearZone[] } => ({
  zones: [{ zone: 'whole', state: 'lower', heightKept, heightKeptSd, fraction: 0.4 }],
});

describe('what size says beside what is left of the relief', () => {
  it('is not that the depth agrees where the whole lacks height', () => {
    expect(sizeBesideWear(readings, zones(0.69, 0.04)).map(({ code }) => code)).toEqual(['ratio', 'depthWorn']);
    expect(sizeBesideWear(readings, zones(0.97, 0.01)).map(({ code }) => code)).toEqual(['ratio', 'depthAsSize']);
    expect(sizeBesideWear(readings, zones(0.8, 0.15)).map(({ code }) => code)).toEqual(['ratio', 'depthAsSize']);
    expect(sizeBesideWear(readings, zones(Number.NaN, Number.NaN))).toEqual(readings);
    expect(sizeBesideWear(readings, { zones: [] })).toEqual(readings);
  });
});

describe('the phrase of a zone', () => {
  it('says of what lies lower no more than that, of the causes in older records too', () => {
    for (const state of ['lower', 'rubbed', 'flattened', 'notFilled'] as const)
      expect(zonePhrase(state, 'matrix')).toBe('lower than the matrix');
    expect(zonePhrase('sharp', 'matrix')).toBe('sharp');
  });
});
