import { describe, expect, it } from 'vitest';
import type { SizeTest } from '../../src/core/compare/index.ts';
import { askedOf } from '../../src/core/judge/asked.ts';
import { rolesKnown, sizeUnderRoles } from '../../src/core/judge/sizeUnderRoles.ts';

const range: [number, number] = [1, 1];
const size: SizeTest = {
  ratio: 1.013,
  sd: 0.001,
  x: 1.013,
  y: 1.013,
  depth: 1,
  favours: 'copy',
  copyIs: 'reference',
  reading: [
    { code: 'ratio', ratio: 1.013, sd: 0.001, same: false },
    { code: 'oneMatrix', reference: { code: 'matrix' }, subject: { code: 'matrix' }, range, agrees: false },
    { code: 'recast', direct: range, throughWax: range, agrees: true },
    { code: 'depthAsSize' },
  ],
};
const face = (sense: 'intaglio' | 'relief', senseConfidence: number) =>
  ({ sense, senseConfidence, senseFrom: 'winding' }) as const;
const under = (a: ReturnType<typeof face>, b: ReturnType<typeof face>, turnedOver: boolean): SizeTest =>
  sizeUnderRoles(size, rolesKnown(askedOf(a, b, { found: true, turnedOver, mirrored: false })));

describe('size, while it is not sure which of the two is the negative', () => {
  it('decides nothing, and says so in place of what the materials ask for', () => {
    const { favours, copyIs, reading, ratio } = under(face('intaglio', 0.6), face('relief', 0.6), true);
    expect([favours, copyIs, ratio]).toEqual(['neither', 'either', 1.013]);
    expect(reading.map(({ code }) => code)).toEqual(['ratio', 'rolesUnsure', 'depthAsSize']);
  });

  it('is left where the roles are sure, and of two of one sense', () => {
    expect(under(face('intaglio', 0.9), face('relief', 0.9), true)).toBe(size);
    expect(under(face('relief', 0.6), face('relief', 0.6), false)).toBe(size);
  });

  it('has nothing to take back where the scales were not stated', () => {
    const silent: SizeTest = {
      ...size,
      favours: 'neither',
      reading: [size.reading[0], { code: 'scaleAssumed', whose: ['reference'], percent: 0.3 }],
    };
    expect(sizeUnderRoles(silent, false).reading).toEqual(silent.reading);
  });
});
