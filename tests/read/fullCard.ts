import { legendOf, parseCard } from '../../src/core/read/index.ts';

/** An invented chapter's seal with everything that a card can say. */
export const fullCard = parseCard({
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

/** The same with nearly nothing in it. */
export const bareCard = parseCard({
  ...{ schema: 'ectype/card/2', shelfmark: 'U 1', objectType: 'unknown', attachment: 'unknown', status: 'unknown' },
  ...{ covering: 'unknown', protection: 'unknown', links: [], sides: [{ side: 'unknown', shape: 'unknown' }] },
  ...{ object: { class: 'impression', generation: null, chain: [] }, fingerMarks: 'notJudged' },
});
