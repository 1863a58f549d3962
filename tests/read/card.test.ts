import { XMLValidator } from 'fast-xml-parser';
import { describe, expect, it } from 'vitest';
import {
  type Card,
  type CardLanguage,
  cardJsonLd,
  cardLanguages,
  cardRows,
  cardsCsv,
  cardTei,
  itemsOfLeiden,
  parseCard,
  validateCard,
} from '../../src/core/read/index.ts';

/** An invented priory's seal. */
const card: Card = {
  schema: 'ectype/card/2',
  repository: 'Archive of Ostrey Priory (invented)',
  shelfmark: 'OP/12 "b", 3',
  seal: { number: 2, of: 3 },
  ...({ objectType: 'cast', attachment: 'unknown', status: 'unknown' } as const),
  ...({ covering: 'unknown', protection: 'none' } as const),
  object: {
    class: 'cast',
    generation: 3,
    chain: [
      { object: 'matrix', material: 'latten' },
      { object: 'impression', material: 'beeswax' },
      { object: 'mould', material: 'silicone' },
      { object: 'cast', material: 'plaster' },
    ],
  },
  owner: 'the prior of Ostrey',
  colour: 'white',
  cast: {
    material: 'plaster',
    makersNumber: '1207',
    original: { attachment: 'tag', status: 'attached' },
  },
  links: [{ relation: 'parent', words: 'Ostrey charter 12', uri: 'https://example.org/ostrey/12' }],
  sides: [
    {
      side: 'obverse',
      shape: 'pointedOval',
      image: { heightMm: 42.5, widthMm: 26.1, from: 'border' },
      motif: 'A <heron> standing on one leg & looking left',
      legend: {
        language: 'la',
        items: itemsOfLeiden("+ S'(igillum) PRIORIS DE OS[T]REI"),
        sources: [],
        translation: { language: 'en', text: 'Seal of the prior of Ostrey' },
      },
    },
    { side: 'counterseal', shape: 'lozenge', image: { heightMm: 18, widthMm: 14, from: 'stated' } },
  ],
  betweenSides: { turnDeg: 12, thicknessMm: 9.5 },
  piece: { heightMm: 50, widthMm: 33 },
  surviving: { heightMm: 40, widthMm: 33 },
  fingerMarks: 'notJudged',
  condition: 'chipped at the foot',
  date: { notBefore: 1240, notAfter: 1260, words: '1240 × 1260', basis: 'document' },
  scan: { file: 'heron.ply', sha256: 'a'.repeat(64), unit: 'mm', unitFrom: 'stated', pointSpacingMm: 0.08 },
};

describe('the catalogue card', () => {
  it('is valid, and comes back from JSON as it was', () => {
    expect(validateCard(card)).toEqual([]);
    expect(parseCard(JSON.parse(JSON.stringify(card)))).toEqual(card);
  });

  it.each<[string, object, string]>([
    ['seal', { seal: { number: 4, of: 3 } }, 'sealBeyondLast'],
    ['object.generation', { object: { ...card.object, generation: 1 } }, 'chainSteps'],
    ['object.chain', { object: { ...card.object, class: 'mould' } }, 'chainEnd'],
    ['date', { date: { notBefore: 1300, notAfter: 1200, words: 'x', basis: 'style' } }, 'yearsReversed'],
    ['piece', { piece: { heightMm: 20, widthMm: 33 }, surviving: undefined }, 'pieceTooSmall'],
    ['surviving', { surviving: { heightMm: 60, widthMm: 33 } }, 'survivingTooLarge'],
    ['attachment', { attachment: 'cords' }, 'hangsNot'],
    ['cast', { object: { ...card.object, class: 'impression', chain: [], generation: null } }, 'castOnly'],
    ['sides.1', { sides: [card.sides[0], card.sides[0]] }, 'sidesAlike'],
    ['shelfmark', { shelfmark: ' ' }, 'shape'],
    ['card', { minutiae: 12 }, 'shape'],
  ])('finds fault with a wrong %s', (field, change, code) => {
    const faults = validateCard({ ...card, ...change });
    expect(faults).toContainEqual(expect.objectContaining({ field, code }));
    expect(() => parseCard({ ...card, ...change })).toThrow(RangeError);
    expect(() => parseCard({ ...card, ...change })).toThrow(`not valid at ${faults[0].field}`);
  });

  it('prints every field once', () => {
    const rows = cardRows(card);
    expect(new Set(rows.map((row) => row.key)).size).toBe(rows.length);
    expect(rows.find((row) => row.key === 'legend')?.value).toBe("✠ S'(igillum) PRIORIS DE OS[T]¹REI");
    expect(rows.find((row) => row.key === 'image')?.value).toBe('42.5 × 26.1 mm (to the outer border line)');
    expect(rows.find((row) => row.key === 'image2')?.value).toBe('18 × 14 mm (as stated)');
    expect(rows.find((row) => row.key === 'changeOfSize')?.value).toBe('not known');
  });

  it('says no size under two names: image, piece and what survives are three', () => {
    const labels = cardRows(card).map(({ label }) => label);
    for (const word of ['Face', 'Cake']) expect(labels.some((label) => label.startsWith(word))).toBe(false);
    const values = cardRows(card).flatMap(({ value }) => (/^[\d.]+ × [\d.]+ mm/.exec(value) ? [value] : []));
    expect(new Set(values).size).toBe(values.length);
  });

  it('is printed in four languages, row by row, no word left out', () => {
    for (const language of cardLanguages) {
      const rows = cardRows(card, language);
      expect(rows.map(({ key }) => key)).toEqual(cardRows(card).map(({ key }) => key));
      for (const { key, label } of rows) expect(label, `${language} ${key}`).not.toBe('');
    }
    const said = (language: CardLanguage, key: string) =>
      cardRows(card, language).find((row) => row.key === key)?.value;
    expect(said('fr', 'shape')).toBe('en navette');
    expect(said('de', 'shape')).toBe('spitzoval');
    expect(said('es', 'originalAttachment')).toBe('pendiente de tira');
    expect(said('de', 'seal')).toBe('2 von 3');
  });

  it('CSV by RFC 4180: quotation marks doubled, as many fields as columns in every line', () => {
    const csv = cardsCsv([card, { ...card, condition: 'two\nlines, "quoted"' }]);
    const records = parseCsv(csv);
    expect(records.length).toBe(3);
    expect(new Set(records.map((fields) => fields.length)).size).toBe(1);
    expect(records[1][records[0].indexOf('shelfmark')]).toBe('OP/12 "b", 3');
    expect(records[2][records[0].indexOf('condition')]).toBe('two\nlines, "quoted"');
  });

  it('JSON-LD names its terms with a prefix of its context, and says what the card says', () => {
    const linked = cardJsonLd(card);
    const prefixes = Object.keys(linked['@context'] as object);
    const names = new Set<string>();
    JSON.stringify(linked, (key, value) => {
      if (key !== '' && !/^\d+$/.test(key)) names.add(key);
      return key === '@context' ? undefined : value;
    });
    for (const name of names)
      expect(name.startsWith('@') || prefixes.some((prefix) => name.startsWith(`${prefix}:`)), name).toBe(true);
    const text = JSON.stringify(linked);
    for (const words of [
      'crm:E22_Human-Made_Object',
      'seal cast',
      '42.5',
      'pointed oval',
      'heron.ply',
      'Seal of the prior of Ostrey',
      'Change of size in casting: not known',
      'https://example.org/ostrey/12',
      '"1240"',
    ])
      expect(text).toContain(words);
  });

  it('the TEI seal description is well-formed and escapes what must be escaped', () => {
    const xml = cardTei(card);
    expect(XMLValidator.validate(xml)).toBe(true);
    for (const words of [
      '<seal type="cast" n="2">',
      '<height>42.5</height>',
      'A &lt;heron&gt; standing on one leg &amp; looking left',
      '<expan><abbr>S<am>',
      'notBefore="1240" notAfter="1260"',
    ])
      expect(xml).toContain(words);
  });
});

/** A plain reader of RFC 4180, written apart from the writer. */
function parseCsv(text: string): string[][] {
  const records: string[][] = [[]];
  let value = '';
  let quoted = false;
  for (let i = 0; i < text.length; i++) {
    const c = text[i];
    if (quoted) {
      if (c === '"' && text[i + 1] === '"') value += text[++i];
      else if (c === '"') quoted = false;
      else value += c;
    } else if (c === '"') quoted = true;
    else if (c === ',' || c === '\r') {
      records[records.length - 1].push(value);
      value = '';
      if (c === '\r') {
        i++;
        records.push([]);
      }
    } else value += c;
  }
  return records.slice(0, -1);
}
