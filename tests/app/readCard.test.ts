import { describe, expect, it } from 'vitest';
import { cardPage, platesWords, printedRows } from '../../src/app/read/card/cardPage.ts';
import { cardFaults, cardFrom, cardGroups, draftNow, prefilled } from '../../src/app/read/state/card.ts';
import type { ScanEntry } from '../../src/app/state/document.ts';
import {
  cardFieldNames,
  cardJsonLd,
  cardLanguages,
  cardsCsv,
  cardTei,
  chainOf,
  emptyTranscription,
  inEveryLanguage,
  itemsOfLeiden,
  parseCard,
} from '../../src/core/read/index.ts';
import { captionWords, pictureWords } from '../../src/core/report/words/index.ts';
import type { FaceView } from '../../src/workers/browser/protocol.ts';

const scan: ScanEntry = {
  id: 'one',
  name: 'brook.ply',
  stated: { material: 'beeswax' },
  title: 'Seal of the Brook guild',
};
const face = {
  kind: 'impression',
  outline: { shape: 'round', widthMm: 31.26, heightMm: 30.91 },
  picture: { pitch: 0.0832 },
  sha256: 'a'.repeat(64),
  unit: 'mm',
  unitFrom: 'stated',
} as unknown as FaceView;
const legend = { ...emptyTranscription, items: itemsOfLeiden("+S'(igillum) GILDE · DE · BRO[K]E") };
const from = (draft: Record<string, string>) => cardFrom(draft, scan, face, legend);

describe('the card of a scan', () => {
  it('needs only a shelfmark: the rest is known from the scan', () => {
    expect(cardFaults(from({}))).toEqual([{ field: 'shelfmark', words: 'The shelfmark is missing.' }]);
    const card = parseCard(from({ shelfmark: 'B 7' }));
    // The wax does not end where its image ends: no size and no shape is claimed.
    expect(card.sides).toEqual([{ side: 'unknown', shape: 'unknown', legend }]);
    expect([card.attachment, card.status, card.objectType]).toEqual(['unknown', 'unknown', 'unknown']);
    expect(card.object).toEqual({
      class: 'impression',
      generation: 1,
      chain: [
        { object: 'matrix', material: 'not known' },
        { object: 'impression', material: 'beeswax' },
      ],
    });
    expect(card.scan).toMatchObject({ file: 'brook.ply', pointSpacingMm: 0.083 });
  });

  it('takes the image of a matrix from its own outline, and says so', () => {
    const card = parseCard(cardFrom({ shelfmark: 'M 1' }, scan, { ...face, kind: 'matrix' }, legend));
    expect(card.sides[0].image).toEqual({ heightMm: 30.9, widthMm: 31.3, from: 'matrixEdge' });
  });

  it('understands drafts of an earlier version', () => {
    const draft = { attachment: 'detached', faceHeight: '30', faceWidth: '31', cakeHeight: '40', cakeWidth: '41' };
    expect(draftNow(draft)).toEqual({
      ...{ attachment: 'unknown', status: 'detached' },
      ...{ imageHeight: '30', imageWidth: '31', pieceHeight: '40', pieceWidth: '41' },
    });
    expect(cardFaults(from({ shelfmark: 'x', ...draft }))).toEqual([]);
  });

  it('has in its form every field that a card takes, but those that the scan fills in', () => {
    const shown = new Set(cardGroups.flatMap(({ fields }) => fields.map(({ name }) => name)));
    const missing = cardFieldNames.filter((name) => !shown.has(name));
    expect(missing).toEqual(['language2', 'pointSpacing']);
  });

  it('is valid for every kind of object as it is prefilled', () => {
    for (const kind of ['matrix', 'mould', 'impression', 'cast'] as const)
      expect(cardFaults(cardFrom({ shelfmark: 'x' }, scan, { ...face, kind }, legend)), kind).toEqual([]);
  });

  it('keeps what the user wrote over what is known', () => {
    const card = parseCard(
      from({ shelfmark: 'B 7', shape: 'oval', pieceHeight: '40', pieceWidth: '41', sealNumber: '2', sealOf: '3' }),
    );
    expect(card.sides[0].shape).toBe('oval');
    expect(card.piece).toEqual({ heightMm: 40, widthMm: 41 });
    expect(card.seal).toEqual({ number: 2, of: 3 });
  });

  it('says each fault in a sentence, at a field of the form', () => {
    const faults = cardFaults(
      from({
        shelfmark: '',
        sealNumber: 'x',
        imageHeight: 'wide',
        notBefore: '1290',
        notAfter: 'later',
        scanDate: 'May',
        chain: 'stamp (tin)',
      }),
    );
    const fields = new Set(cardGroups.flatMap((group) => group.fields.map(({ name }) => name)));
    for (const { field, words } of faults) {
      expect(fields.has(field), field).toBe(true);
      expect(words).toMatch(/^[A-Z].*\.$/);
    }
    expect(new Set(faults.map(({ field }) => field))).toEqual(
      new Set(['shelfmark', 'sealNumber', 'imageHeight', 'notBefore', 'scanDate', 'chain']),
    );
    const years = cardFaults(from({ shelfmark: 'x', notBefore: '1300', notAfter: '1290' }));
    expect(years.map(({ words }) => words)).toEqual(['The earliest year comes after the latest.']);
  });

  it('goes out in every form, with its legend', () => {
    const card = parseCard(from({ shelfmark: 'B <7>', motif: 'Three fish & a bridge' }));
    expect(cardTei(card)).toContain('<idno>B &lt;7&gt;</idno>');
    expect(JSON.stringify(cardJsonLd(card))).toContain('Three fish & a bridge');
    expect(cardsCsv([card]).split('\r\n')).toHaveLength(3);
    const page = cardPage(card, scan.title, [{ url: 'data:image/png;base64,AA==', caption: 'Raking light: 315°.' }]);
    expect(page).toContain('Three fish &amp; a bridge');
    expect(page).toContain('BRO[K]¹E');
    expect(page).not.toMatch(/https?:/);
    expect(printedRows(card).every(({ value }) => value !== '')).toBe(true);
  });
});

describe('what stands under the plates', () => {
  const told = (face: string, strip?: string): string[] =>
    platesWords(
      inEveryLanguage(() => face),
      strip === undefined ? undefined : inEveryLanguage(() => strip),
      'en',
    );
  const face = 'Mine: heights as grey; ridges at 0.2 mm (mix, 0.35); shown as its impression (turned over).';
  it('tells a look that both are seen in once', () => {
    const tail = '; the matrix turned over to read as its impression';
    expect(told(face, `Mine: heights as grey; ridges at 0.2 mm (mix, 0.35)${tail}.`)).toEqual([
      face,
      `The legend laid out straight, in the same look${tail}.`,
    ]);
    expect(told(face, 'Mine: heights as grey; ridges at 0.2 mm (mix, 0.35).')[1]).toBe(
      'The legend laid out straight, in the same look.',
    );
  });

  it.each(cardLanguages)('does so in %s', (language) => {
    const { matrixTurned, sameLook } = captionWords[language].card;
    const look = (way: string) =>
      inEveryLanguage((each) =>
        pictureWords({ code: 'look', name: 'Mine', steps: [{ do: 'heights' } as never], view: 'asItIs' }, way, each),
      );
    const seen = inEveryLanguage((each) => `${look('')[each].slice(0, -1)}; x.`);
    expect(platesWords(seen, look(matrixTurned), language)).toEqual([seen[language], sameLook(true)]);
    expect(platesWords(seen, look(''), language)[1]).toBe(sameLook(false));
  });

  it('tells both where they differ', () => {
    expect(told(face, 'Mine: heights as grey; ridges at 0.3 mm.')).toEqual([
      face,
      'Mine: heights as grey; ridges at 0.3 mm.',
    ]);
    expect(told(face)).toEqual([face]);
  });
});

describe('a chain in words', () => {
  it('is read link by link, commas in brackets left alone', () => {
    expect(chainOf('Matrix (brass, gilt), impression (wax)')).toEqual([
      { object: 'matrix', material: 'brass, gilt' },
      { object: 'impression', material: 'wax' },
    ]);
    expect(chainOf(' ')).toEqual([]);
  });

  it('is what the form shows for a scan', () => {
    expect(chainOf(prefilled(scan, face).chain)).toHaveLength(2);
  });
});
