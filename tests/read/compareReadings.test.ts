import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  compareReadings,
  fromTei,
  type Item,
  itemsOfLeiden,
  type ReadPlace,
  readerOfTei,
  toTei,
  validateTranscription,
} from '../../src/core/read/index.ts';
import { readingsCsv } from '../../src/core/report/index.ts';
import { comparedReadingsWords, readingVerdictWords, readPlaceWords } from '../../src/core/report/words/index.ts';
import { readCsv } from '../../src/core/scan/index.ts';
import { expectPrintable, expectSentence } from '../report/words/said.ts';
import { anyTranscription } from './anyTranscription.ts';
import { readTwice } from './readTwice.ts';

const compared = (one: string, two: string) =>
  compareReadings({ items: itemsOfLeiden(one) }, { items: itemsOfLeiden(two) });
const verdicts = (one: string, two: string): string[] => compared(one, two).pairs.map(({ verdict }) => verdict);

describe('two readings of one legend', () => {
  it('a reading agrees with itself, whatever is in it', () => {
    fc.assert(
      fc.property(anyTranscription, (t) => {
        const { counts, agreement } = compareReadings(t, t);
        expect(counts.differ + counts.readByOne + counts.onlyOne).toBe(0);
        expect(agreement === null || agreement === 1).toBe(true);
      }),
      { numRuns: 200, seed: 1 },
    );
  });

  it('exchanged, they give the same places with the readers exchanged, and each letter stands once', () => {
    const seen = (places: readonly (ReadPlace | null)[]): number[] =>
      places.flatMap((place) => (place?.text != null ? [place.index] : []));
    fc.assert(
      fc.property(anyTranscription, anyTranscription, (a, b) => {
        const [one, two] = [compareReadings(a, b), compareReadings(b, a)];
        expect(one.counts.agree + one.counts.agreeDoubtful).toBe(two.counts.agree + two.counts.agreeDoubtful);
        const stands = (item: Item): boolean =>
          item.kind === 'mark' ||
          ((item.kind === 'letter' || item.kind === 'sign') && item.state !== 'supplied' && item.state !== 'omitted');
        const of = (items: readonly Item[]): number[] => items.flatMap((item, i) => (stands(item) ? [i] : []));
        expect(seen(one.pairs.map((pair) => pair.one))).toEqual(of(a.items));
        expect(seen(one.pairs.map((pair) => pair.two))).toEqual(of(b.items));
      }),
      { numRuns: 200, seed: 2 },
    );
  });

  it('tells a doubt, another letter, what one alone reads, and what neither does', () => {
    expect(verdicts('A\u0323BC', 'ABD')).toEqual(['agreeDoubtful', 'agree', 'differ']);
    expect(verdicts('A[.]C', 'ABC')).toEqual(['agree', 'readByOne', 'agree']);
    expect(verdicts('A[B]C', 'A.C')).toEqual(['agree', 'readByNeither', 'agree']);
    expect(verdicts('ABC', 'AC')).toEqual(['agree', 'onlyOne', 'agree']);
  });

  it('takes nothing from what is the reader’s own: spaces, rings, expansions, letters left out, case, V for U, I for J', () => {
    expect(compared("S'(igillum) IVDEI|X", "s'iudei<n>x").counts).toMatchObject({ agree: 8, differ: 0, onlyOne: 0 });
  });

  it('a gap of unknown length stands for any number, and letters behind it find their partners', () => {
    const { counts, pairs } = compared('SIG[---]IOHANNIS', 'SIGILLVM IOHANNIS');
    expect(counts).toMatchObject({ agree: 11, differ: 0 });
    expect(pairs.at(-1)).toMatchObject({ one: { text: 'S' }, two: { text: 'S' } });
  });

  it('lays nearly every letter beside the one it was read from', () => {
    // Legends read twice with errors at known places (`readTwice.ts`); a letter is right beside its own partner, or alone where it has none.
    const found = readTwice(200, 71, (a, b) => compareReadings({ items: a }, { items: b }).pairs);
    expect(found.right / found.letters).toBeGreaterThan(0.97);
  });
});

describe('what is said of two readings', () => {
  it('is a sentence with the letters counted, and a table of every place', () => {
    const both = compared('A\u0323BCE[.]', 'ABDE.F');
    expectSentence(comparedReadingsWords(both));
    expect(comparedReadingsWords(both)).toMatch(
      /^Of 4 letters that both read, 3 agree \(75 %, 1 of them with a doubt\), 1 differs\./,
    );
    expectSentence(comparedReadingsWords(compared('[..]', 'AB')));
    for (const { one, two, verdict } of both.pairs)
      for (const words of [readPlaceWords(one), readPlaceWords(two), readingVerdictWords(verdict)])
        expectPrintable(words);
    const rows = readCsv(readingsCsv(both, ['Ada', 'Bo']));
    expect(rows[0].slice(3, 5)).toEqual(['Ada', 'Bo']);
    expect(rows).toHaveLength(1 + both.pairs.length);
  });

  it('a reader stays named in TEI, and is no source', () => {
    const transcription = { language: 'la', items: itemsOfLeiden('AB'), sources: [] };
    const header = { title: 'A', publication: 'B', sourceDescription: 'C', reader: 'Ada & Bo' };
    expect(readerOfTei(toTei(transcription, header))).toBe('Ada & Bo');
    expect(readerOfTei(toTei(transcription))).toBeNull();
    expect(fromTei(toTei(transcription, header))).toEqual(transcription);
  });
});

it('no file can ask for a gap or a legend so long that nothing can be compared', () => {
  const gap = { kind: 'gap', reason: 'lost', quantity: 1e9 };
  expect(validateTranscription({ language: 'la', items: [gap], sources: [] })[0].code).toBe('shape');
  const items = Array.from({ length: 2001 }, () => ({ kind: 'letter', text: 'A', state: 'clear' }));
  expect(validateTranscription({ language: 'la', items, sources: [] })[0].code).toBe('shape');
});
