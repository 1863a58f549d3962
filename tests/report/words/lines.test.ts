import { describe, expect, it } from 'vitest';
import type { LineReading, LineSection } from '../../../src/core/condition/index.ts';
import { lineWords } from '../../../src/core/report/words/index.ts';
import { type ExamplesOf, expectSentence } from './said.ts';

const ends: ExamplesOf<LineReading['end']> = {
  tooUneven: [{ code: 'tooUneven' }],
  higherBeside: [{ code: 'higherBeside' }],
  likeNone: [{ code: 'likeNone' }],
  oneOfTwo: [{ code: 'oneOfTwo', kinds: ['cut', 'crack'] }],
  plain: [{ code: 'plain', kind: 'cut' }],
  rather: [{ code: 'rather', kind: 'crack', than: 'scratch' }],
};
const lips: ExamplesOf<NonNullable<LineReading['lips']>> = {
  none: [{ code: 'none', overMm: 0.004 }],
  lips: [{ code: 'lips', sides: 1, heightMm: 0.041, sdMm: 0.006 }],
  furrows: [{ code: 'furrows', sides: 2, heightMm: 0.041, sdMm: 0.006 }],
};
const levels: ExamplesOf<NonNullable<LineReading['level']>> = {
  absentBeyond: [
    { code: 'absentBeyond', ground: 'design', side: 'higher', levelMm: 0.31 },
    { code: 'absentBeyond', ground: 'sides', side: 'lower', levelMm: -0.31 },
  ],
  keepsLevel: [{ code: 'keepsLevel', levelMm: 0.31 }],
  follows: [{ code: 'follows', rangeMm: 0.7 }],
};
const ways = (['straight', 'oneBow', 'wandering'] as const).map((code) => ({ code, offMm: 0.034 }));
const widths = (['wide', 'unresolved'] as const).map((code) => ({ code, widthMm: 0.4 }));
const section = { depthMm: 0.3, depthSdMm: 0.01, widthSdMm: Number.NaN };

const said = (reading: LineReading, bottom: 'vee' | 'round' | 'flat' | 'unresolved', ridge: boolean): string => {
  const measured = { section: { ...section, bottom }, lengthMm: 21.4 } as unknown as LineSection['measured'];
  return lineWords({ reading, measured, ridge });
};

describe('the words of a line', () => {
  it('are one sentence, whatever was measured', () => {
    for (const end of Object.values(ends).flat())
      for (const way of ways)
        for (const width of widths)
          for (const lip of [null, ...Object.values(lips).flat()])
            for (const level of [null, ...Object.values(levels).flat()])
              for (const bottom of ['vee', 'round', 'flat', 'unresolved'] as const)
                expectSentence(said({ end, way, width, lips: lip, level }, bottom, lip?.code !== 'lips'));
  });

  it('say so where nothing was measured', () => {
    expectSentence(lineWords({ reading: null, measured: null, ridge: true }));
  });

  it('carry the numbers, a minus as a minus', () => {
    const reading = { end: ends.plain[0], way: ways[0], width: widths[0], lips: null, level: levels.absentBeyond[1] };
    expect(said(reading, 'vee', false)).toBe(
      'Straight to 0.03 mm r.m.s. over 21.4 mm, 0.30 ± 0.01 mm deep, 0.40 mm wide at half of it, V-shaped, absent where its sides stand lower than −0.31 mm: a cut.',
    );
  });
});
