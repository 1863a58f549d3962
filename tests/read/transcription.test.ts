import fc from 'fast-check';
import { XMLValidator } from 'fast-xml-parser';
import { describe, expect, it } from 'vitest';
import {
  commonAbbreviations,
  diplomatic,
  expanded,
  fromLeiden,
  fromTei,
  type Item,
  isLetterText,
  itemsOfLeiden,
  leidenText,
  suggestionsFor,
  teiOfItems,
  toLeiden,
  toTei,
  validateTranscription,
} from '../../src/core/read/index.ts';
import { anyTranscription as transcription } from './anyTranscription.ts';

const letterOf = (text: string, state = 'clear', more: object = {}): Item =>
  ({ kind: 'letter', text, state, ...more }) as Item;

describe('a thousand generated transcriptions', () => {
  it('Leiden print and back loses nothing', () => {
    fc.assert(
      fc.property(transcription, (t) => {
        expect(fromLeiden(toLeiden(t))).toEqual(t);
      }),
      { numRuns: 1000, seed: 5 },
    );
  });

  it('TEI and back loses nothing, and the TEI is well-formed', () => {
    fc.assert(
      fc.property(transcription, (t) => {
        const xml = toTei(t);
        expect(XMLValidator.validate(xml)).toBe(true);
        expect(fromTei(xml)).toEqual(t);
      }),
      { numRuns: 1000, seed: 6 },
    );
  });

  it('uses only elements of TEI P5 that EpiDoc uses for editions', () => {
    const allowed = new Set('gap g unclear supplied expan abbr ex am surplus hi lb seg'.split(' '));
    fc.assert(
      fc.property(transcription, (t) => {
        for (const [, name] of teiOfItems(t.items).matchAll(/<([a-zA-Z]+)/g)) expect(allowed.has(name)).toBe(true);
      }),
      { numRuns: 200, seed: 7 },
    );
  });
});

describe('Leiden signs and their EpiDoc elements', () => {
  const tei = (text: string): string => teiOfItems(itemsOfLeiden(text));

  // Marks and elements as in the EpiDoc Guidelines.
  it.each([
    ['[...]', '<gap reason="lost" quantity="3" unit="character"/>'],
    ['[c. 4]', '<gap reason="lost" quantity="4" precision="low" unit="character"/>'],
    ['[---]', '<gap reason="lost" extent="unknown" unit="character"/>'],
    ['...', '<gap reason="illegible" quantity="3" unit="character"/>'],
    ['A\u0323', '<unclear>A</unclear>'],
    ['[ABC]', '<supplied reason="lost" evidence="conjecture">ABC</supplied>'],
    ['S(igillum)', '<expan><abbr>S</abbr><ex>igillum</ex></expan>'],
    ['<N>', '<supplied reason="omitted">N</supplied>'],
    ['{R}', '<surplus>R</surplus>'],
    ['✠', '<g ref="#cross"/>'],
    ['A\u0361E', '<hi rend="ligature">AE</hi>'],
    ["S'(igillum)", "<expan><abbr>S<am>'</am></abbr><ex>igillum</ex></expan>"],
    ['EP(iscop)I', '<expan><abbr>EP</abbr><ex>iscop</ex><abbr>I</abbr></expan>'],
  ])('%s', (leiden, expected) => {
    expect(tei(leiden)).toBe(expected);
    expect(leidenText(itemsOfLeiden(leiden))).toBe(leiden === '[ABC]' ? '[ABC]¹' : leiden);
  });

  it('a cross may be typed as a plus sign and is never printed as one', () =>
    expect(leidenText(itemsOfLeiden('+ SIGILLVM +'))).toBe('✠ SIGILLVM ✠'));

  it('refuses what it does not understand, with the place', () => {
    for (const text of ['[AB', 'A]', '(x', '<', '{}', 'A\u0323\u0323]', '[A\u0323]'])
      expect(() => itemsOfLeiden(text)).toThrow(RangeError);
    expect(() => itemsOfLeiden('AB)')).toThrow(/place 3/);
  });
});

describe('validateTranscription', () => {
  const issuesOf = (items: Item[]) =>
    validateTranscription({
      language: 'la',
      items,
      sources: [{ id: 'W1', kind: 'witness', name: 'an impression' }],
    });
  const of = (items: Item[]): string[] => issuesOf(items).map(({ code }) => code);

  it('a supplied letter names its source, and only that', () => {
    expect(of([letterOf('A', 'supplied')])).toContain('noSource');
    expect(of([letterOf('A', 'doubtful', { source: { from: 'conjecture' } })])).toContain('needlessSource');
    expect(of([letterOf('A', 'supplied', { source: { from: 'witness', id: 'W1' } })])).toEqual([]);
    expect(issuesOf([letterOf('A', 'supplied', { source: { from: 'witness', id: 'W9' } })])).toContainEqual({
      ...{ index: 0, code: 'unknownSource', id: 'W9' },
    });
    expect(issuesOf([letterOf('A', 'supplied', { source: { from: 'conjecture', id: 'W1' } })])).toContainEqual({
      ...{ index: 0, code: 'otherSource', id: 'W1', wanted: 'person' },
    });
  });

  it('a letter has one state, so it cannot be doubtful and supplied', () => {
    expect(of([letterOf('A', 'doubtful supplied')]).length).toBeGreaterThan(0);
    expect(() =>
      fromTei(
        toTei({ language: 'la', items: [], sources: [] }).replace(
          '<ab>',
          '<ab><supplied reason="lost"><unclear>A</unclear></supplied>',
        ),
      ),
    ).toThrow(/never both/);
  });

  it('ligatures go on to a letter, expansions follow one, marks cannot be letters', () => {
    expect(of([letterOf('A', 'clear', { joined: true })])).toContain('openLigature');
    expect(of([{ kind: 'space' }, { kind: 'expansion', text: 'us' }])).toEqual(['followsNoLetter']);
    expect(of([letterOf('[')])).toEqual(['notOneLetter']);
    expect(isLetterText('AB')).toBe(false);
    expect(isLetterText('Q\u0304')).toBe(true);
  });
});

describe('readings', () => {
  const items = itemsOfLeiden("+ S'(igillum) [IO]H(ann)IS <D>E {E}B\u0323R[..]C");

  it('diplomatic text gives what stands on the object', () => {
    expect(diplomatic({ items })).toBe("✠ S' [..]HIS E EBR[..]C");
  });

  it('expanded text gives the words in full', () => {
    expect(expanded({ items })).toBe('sigillum iohannis de br…c');
  });

  it('every common abbreviation is itself a valid transcription whose letters are those written', () => {
    for (const { written, words } of commonAbbreviations)
      for (const word of words) {
        const parts = itemsOfLeiden(word);
        expect(validateTranscription({ language: 'la', items: parts, sources: [] })).toEqual([]);
        expect(diplomatic({ items: parts })).toBe(written.replace("'", ''));
      }
    expect(suggestionsFor(itemsOfLeiden("S'"))).toContain('S(igillum)');
  });
});
