import fc from 'fast-check';
import { XMLValidator } from 'fast-xml-parser';
import { describe, expect, it } from 'vitest';
import { cardLanguages, cardTei, cardWords, toTei } from '../../src/core/read/index.ts';
import { anyTranscription } from './anyTranscription.ts';
import { bareCard, fullCard } from './fullCard.ts';
import { teiFaults } from './teiSchema.ts';

describe('TEI files by the published schema of TEI P5', () => {
  it.each(cardLanguages)('a card with everything in it, and one with nearly nothing, in %s', (language) => {
    for (const card of [fullCard, bareCard]) expect(teiFaults(cardTei(card, language))).toEqual([]);
  });

  it('a card’s labels and closed terms are in the language that is asked for', () => {
    const xml = cardTei(fullCard, 'de');
    expect(xml).toContain('xml:lang="de"');
    for (const words of ['Siegel: 2 von 3', cardWords.de.castMaterials.sulphur, cardWords.de.shapes.lozenge])
      expect(xml).toContain(words);
    for (const words of ['Attachment', 'not known', 'Chain', 'stated'])
      expect(xml.replaceAll('(not known)', '')).not.toContain(words);
    expect(XMLValidator.validate(xml)).toBe(true);
  });

  it('transcriptions, whatever is in them', () => {
    fc.assert(
      fc.property(anyTranscription, (t) => {
        expect(
          teiFaults(toTei(t, { title: 'A', publication: 'B', sourceDescription: 'C', reader: 'D', language: 'fr' })),
        ).toEqual([]);
      }),
      { numRuns: 150, seed: 9 },
    );
  });

  it.each([
    ['an unknown element', '<ab>', '<ab><rune/>', 'rune is no element of TEI P5'],
    ['a child out of place', '<ab>', '<ab><teiHeader/>', 'teiHeader has no place in ab'],
    ['an unknown attribute', '<ab>', '<ab colour="red">', 'ab has no attribute colour'],
    ['a wrong order', '<publicationStmt>', '<sourceDesc><p/></sourceDesc><publicationStmt>', 'wrong order'],
    ['text where none may stand', '<fileDesc>', '<fileDesc>words', 'fileDesc holds text'],
    ['a value of a wrong type', '<ab>', '<ab xml:id="1 a">', 'not of its type'],
    ['a reference to nothing', '<ab>', '<ab><g ref="#nobody"/>', 'nothing is called nobody'],
  ])('would see %s', (_, from, to, fault) => {
    const xml = toTei({ language: 'la', items: [], sources: [] });
    expect(teiFaults(xml)).toEqual([]);
    expect(teiFaults(xml.replace(from, to)).join('\n')).toContain(fault);
  });
});
