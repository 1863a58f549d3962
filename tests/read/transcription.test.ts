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
  signNames,
  suggestionsFor,
  type Transcription,
  teiOfItems,
  toLeiden,
  toTei,
  validateTranscription,
} from '../../src/core/read/index.ts';

const ids = ['W1', 'W2', 'P1', 'P2'] as const;
const printable = fc
  .string({ unit: 'grapheme', minLength: 1, maxLength: 20 })
  .filter((s) => !/[\p{Cc}\p{Cs}]/u.test(s));
const sources = fc.tuple(printable, printable, printable, printable).chain((names) =>
  fc.shuffledSubarray(
    ids.map((id, k) => ({ id, kind: id.startsWith('W') ? ('witness' as const) : ('person' as const), name: names[k] })),
    { minLength: 4, maxLength: 4 },
  ),
);
const source = fc.oneof(
  fc.constantFrom('W1', 'W2').map((id) => ({ from: 'witness' as const, id })),
  fc.constantFrom('P1', 'P2').map((id) => ({ from: 'conjecture' as const, id })),
  fc.constant({ from: 'conjecture' as const }),
);
const along = fc.option(
  fc.double({ min: 0, max: 300, noNaN: true, noDefaultInfinity: true }).filter((v) => !Object.is(v, -0)),
  { nil: undefined },
);
const placed = <T extends object>(item: T) =>
  along.map((alongMm) => (alongMm === undefined ? item : { ...item, alongMm }));
const flag = (chance: number) => fc.double({ min: 0, max: 1, noNaN: true }).map((v) => v < chance);

const letter = fc
  .record({
    text: fc.oneof(fc.constantFrom(...'ABCDEFGHIKLMNOPQRSTVXYZƷÞ', 'e', 'm', '7', 'Q\u0304', 'É', '&', '"')),
    state: fc.constantFrom('clear', 'clear', 'clear', 'doubtful', 'supplied', 'omitted', 'superfluous'),
    source,
    joined: flag(0.15),
    reversed: flag(0.1),
  })
  .map(({ text, state, source, joined, reversed }) => ({
    kind: 'letter' as const,
    text,
    state,
    ...(state === 'supplied' && { source }),
    ...(joined && { joined: true as const }),
    ...(reversed && { reversed: true as const }),
  }));
const sign = fc
  .record({ name: fc.constantFrom(...signNames), state: fc.constantFrom('clear', 'doubtful', 'supplied'), source })
  .map(({ name, state, source }) => ({ kind: 'sign' as const, name, state, ...(state === 'supplied' && { source }) }));
const gap = fc
  .record({
    reason: fc.constantFrom('lost', 'illegible'),
    quantity: fc.option(fc.integer({ min: 1, max: 12 }), { nil: null }),
    about: fc.boolean(),
  })
  .map(({ reason, quantity, about }) => ({
    kind: 'gap' as const,
    reason,
    quantity,
    ...(about && quantity !== null && { about: true as const }),
  }));
const expansion = fc
  .option(fc.stringMatching(/^[a-z]([a-z &<"]{0,6}[a-z])?$/), { nil: null })
  .map((text) => ({ kind: 'expansion' as const, text }));
const item = fc.oneof(
  { weight: 10, arbitrary: letter.chain(placed) },
  { weight: 2, arbitrary: sign.chain(placed) },
  { weight: 2, arbitrary: gap.chain(placed) },
  { weight: 2, arbitrary: expansion },
  {
    weight: 1,
    arbitrary: fc
      .constantFrom("'", '¯')
      .map((text) => ({ kind: 'mark' as const, text }))
      .chain(placed),
  },
  { weight: 3, arbitrary: fc.constant({ kind: 'space' as const }) },
  { weight: 1, arbitrary: fc.constant({ kind: 'line' as const }) },
);

/** Whatever is generated, made valid by leaving out what the validator finds fault with. */
const transcription = fc
  .record({
    language: fc.constantFrom('la', 'fro', 'en', 'gmh'),
    items: fc.array(item, { maxLength: 40 }),
    sources,
    translation: fc.option(fc.record({ language: fc.constantFrom('en', 'de'), text: printable }), { nil: undefined }),
  })
  .map((raw) => {
    const whole = { ...raw, ...(raw.translation === undefined && { translation: undefined }) } as Transcription;
    const { translation, ...rest } = whole;
    let kept = { ...rest, ...(translation && { translation }) } as Transcription;
    for (;;) {
      const faulty = validateTranscription(kept).map((issue) => issue.index);
      if (faulty.length === 0) return kept;
      const drop = Math.min(...faulty.filter((index) => index >= 0));
      kept = { ...kept, items: kept.items.filter((_, i) => i !== drop) };
    }
  });

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
    ['+', '<g ref="#cross"/>'],
    ['A\u0361E', '<hi rend="ligature">AE</hi>'],
    ["S'(igillum)", "<expan><abbr>S<am>'</am></abbr><ex>igillum</ex></expan>"],
    ['EP(iscop)I', '<expan><abbr>EP</abbr><ex>iscop</ex><abbr>I</abbr></expan>'],
  ])('%s', (leiden, expected) => {
    expect(tei(leiden)).toBe(expected);
    expect(leidenText(itemsOfLeiden(leiden))).toBe(leiden === '[ABC]' ? '[ABC]¹' : leiden);
  });

  it('refuses what it does not understand, with the place', () => {
    for (const text of ['[AB', 'A]', '(x', '<', '{}', 'A\u0323\u0323]', '[A\u0323]'])
      expect(() => itemsOfLeiden(text)).toThrow(RangeError);
    expect(() => itemsOfLeiden('AB)')).toThrow(/place 3/);
  });
});

describe('validateTranscription', () => {
  const of = (items: Item[]): string[] =>
    validateTranscription({
      language: 'la',
      items,
      sources: [{ id: 'W1', kind: 'witness', name: 'an impression' }],
    }).map((issue) => issue.words);

  it('a supplied letter names its source, and only that', () => {
    expect(of([letterOf('A', 'supplied')])).toContain('A supplied letter names its source.');
    expect(of([letterOf('A', 'doubtful', { source: { from: 'conjecture' } })])).toContain(
      'Only a supplied letter has a source.',
    );
    expect(of([letterOf('A', 'supplied', { source: { from: 'witness', id: 'W1' } })])).toEqual([]);
    expect(of([letterOf('A', 'supplied', { source: { from: 'witness', id: 'W9' } })])).toContain(
      'There is no source W9.',
    );
    expect(of([letterOf('A', 'supplied', { source: { from: 'conjecture', id: 'W1' } })])).toContain(
      'The source W1 is not a person.',
    );
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
    expect(of([letterOf('A', 'clear', { joined: true })])).toContain('A ligature goes on to a letter.');
    expect(of([{ kind: 'space' }, { kind: 'expansion', text: 'us' }]).length).toBe(1);
    expect(of([letterOf('[')]).length).toBe(1);
    expect(isLetterText('AB')).toBe(false);
    expect(isLetterText('Q\u0304')).toBe(true);
  });
});

describe('readings', () => {
  const items = itemsOfLeiden("+ S'(igillum) [IO]H(ann)IS <D>E {E}B\u0323R[..]C");

  it('diplomatic text gives what stands on the object', () => {
    expect(diplomatic({ items })).toBe("+ S' [..]HIS E EBR[..]C");
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
