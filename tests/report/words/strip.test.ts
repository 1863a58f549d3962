import { describe, expect, it } from 'vitest';
import { letterSenses } from '../../../src/core/design/index.ts';
import type { ReadableStrip } from '../../../src/core/read/index.ts';
import { letterSenseWords, stripWords } from '../../../src/core/report/words/index.ts';
import { expectSentence } from './said.ts';

type Strip = Parameters<typeof stripWords>[0];

/** All that the words of a strip read. */
const strip = (
  sense: 'intaglio' | 'relief',
  facing: 'inward' | 'outward',
  pieces: readonly ('inward' | 'outward')[] = [facing],
  letters: Partial<ReadableStrip['letters']> = {},
): Strip =>
  ({
    strip: {
      band: { sense, lettersInnerMm: 5.24, lettersOuterMm: 2 },
      facing,
      pieces: pieces.map((each) => ({ facing: each })),
    },
    letters: { sense: 'upright', decided: true, separation: 3, likeness: [1, 0, 0, 0], ...letters },
    startDeg: 12.34,
  }) as unknown as Strip;

describe('under a strip', () => {
  it('stands how it was unrolled, whence, and how high its letters are', () => {
    expect(stripWords(strip('relief', 'inward'))).toBe(
      "Legend strip, clockwise, feet to the centre; from 12.3° clockwise from 12 o'clock on the impression; letters 3.2 mm high; read as it is.",
    );
    expect(stripWords(strip('intaglio', 'outward'))).toBe(
      "Legend strip, against the clock, feet to the rim; from 12.3° clockwise from 12 o'clock on the impression; letters 3.2 mm high; matrix turned over to read as its impression.",
    );
    expect(stripWords(strip('relief', 'inward', ['inward', 'outward']))).toContain('letters face two ways, each arc');
  });

  it('stands that the legend is retrograde, only where that is sure', () => {
    const retrograde = { sense: 'mirrored' } as const;
    expect(stripWords(strip('relief', 'inward', undefined, retrograde))).toContain('. The legend is retrograde:');
    expect(stripWords(strip('relief', 'inward', undefined, { ...retrograde, decided: false }))).not.toContain(
      'retrograde',
    );
  });

  it('stands which way the letters stand, or that it could not be told', () => {
    const said = letterSenses.map((sense) => letterSenseWords({ sense, decided: true }));
    for (const words of said) expectSentence(words);
    expect(new Set(said).size).toBe(3);
    for (const sense of letterSenses)
      expect(letterSenseWords({ sense, decided: false })).toContain('could not be told');
  });
});
