import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cardTei, legendOf, parseCard, toTei } from '../../src/core/read/index.ts';
import { anyTranscription } from './anyTranscription.ts';
import { teiFaults } from './teiSchema.ts';

/** An invented chapter's seal with everything that a card can say. */
const card = parseCard({
  schema: 'ectype/card/2',
  repository: 'Town archive of Ostrey (invented)',
  shelfmark: 'U <14> & "b"',
  seal: { number: 2, of: 3 },
  ...{ objectType: 'cast', attachment: 'unknown', status: 'unknown', covering: 'paper', protection: 'bag' },
  object: {
    class: 'cast',
    generation: 3,
    chain: ['matrix', 'impression', 'mould', 'cast'].map((object) => ({ object, material: 'not known' })),
  },
  cast: {
    ...{ material: 'sulphur', maker: 'A. Maker', makersNumber: '7' },
    ...{ changeOfSize: { percent: -0.5, source: 'a label' }, original: { attachment: 'cords', status: 'attached' } },
  },
  links: [
    { relation: 'parent', words: 'the mould', uri: 'https://example.org/mould' },
    { relation: 'cast', words: 'another' },
  ],
  ...{ owner: 'The chapter of Ostrey', colour: 'brown' },
  sides: [
    {
      ...{ side: 'obverse', shape: 'lozenge', motif: 'A bridge & a pike' },
      image: { heightMm: 40.5, widthMm: 31, from: 'partner' },
      legend: {
        ...legendOf("+S'(igillum) [CA]PITVLI:ẠE{R}<N>[---]|...T·OS"),
        translation: { language: 'en', text: 'Seal of the chapter' },
      },
    },
    { side: 'counterseal', shape: 'polygonal', motif: 'A pike' },
  ],
  betweenSides: { turnDeg: 12, offsetMm: 0.8, thicknessMm: 9.4 },
  piece: { heightMm: 60, widthMm: 52 },
  surviving: { heightMm: 55, widthMm: 52 },
  ...{ back: 'Handled', fingerMarks: 'present', condition: 'Chipped', repairs: 'Glued', earlierMoulding: 'Grease' },
  date: { notBefore: -40, notAfter: 1260, words: 'by 1260', basis: 'office', basisWords: 'Dean A.' },
  scan: {
    ...{ file: 'pike.ply', sha256: 'a'.repeat(64), unit: 'mm', unitFrom: 'file', instrument: 'X', operator: 'B. Hand' },
    ...{ date: '2025-01-02', pointSpacingMm: 0.08, processing: 'simulated' },
  },
  ...{ describedBy: 'C. Clerk', rights: 'none' },
});

describe('TEI files by the published schema of TEI P5', () => {
  it('a card with everything in it, and one with nearly nothing', () => {
    expect(teiFaults(cardTei(card))).toEqual([]);
    const bare = { ...card, sides: [{ side: 'unknown', shape: 'unknown' }], links: [], cast: undefined };
    const { date: _, scan: __, piece: ___, ...least } = bare;
    expect(teiFaults(cardTei(parseCard({ ...least, surviving: undefined })))).toEqual([]);
  });

  it('transcriptions, whatever is in them', () => {
    fc.assert(
      fc.property(anyTranscription, (t) => {
        expect(teiFaults(toTei(t, { title: 'A', publication: 'B', sourceDescription: 'C', reader: 'D' }))).toEqual([]);
      }),
      { numRuns: 150, seed: 9 },
    );
  });

  it.each([
    ['an unknown element', '<ab>', '<ab><rune/>', 'rune is no element of TEI P5'],
    ['a child out of place', '<ab>', '<ab><teiHeader/>', 'teiHeader has no place in ab'],
    ['an unknown attribute', '<ab>', '<ab colour="red">', 'ab has no attribute colour'],
    ['a wrong order', '<publicationStmt>', '<sourceDesc><p/></sourceDesc><publicationStmt>', 'wrong order'],
    ['text where none may stand', '<teiHeader>', '<teiHeader>words', 'teiHeader holds text'],
    ['a value of a wrong type', '<ab>', '<ab xml:id="1 a">', 'not of its type'],
    ['a reference to nothing', '<ab>', '<ab><g ref="#nobody"/>', 'nothing is called nobody'],
  ])('would see %s', (_, from, to, fault) => {
    const xml = toTei({ language: 'la', items: [], sources: [] });
    expect(teiFaults(xml)).toEqual([]);
    expect(teiFaults(xml.replace(from, to)).join('\n')).toContain(fault);
  });
});
