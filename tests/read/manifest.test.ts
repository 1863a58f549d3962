import { describe, expect, it } from 'vitest';
import {
  type Card,
  cardManifest,
  inEveryLanguage,
  legendOf,
  type ManifestPlate,
  parseCard,
} from '../../src/core/read/index.ts';

/** An invented town's seal. */
const card: Card = parseCard({
  schema: 'ectype/card/2',
  repository: 'Town archive of Ostrey (invented)',
  shelfmark: 'U 12',
  ...{ objectType: 'waxSeal', attachment: 'tag', status: 'attached', covering: 'none', protection: 'unknown' },
  object: { class: 'impression', generation: 1, chain: [] },
  links: [],
  sides: [{ side: 'obverse', shape: 'round', legend: legendOf("+S'(igillum) CIVITATIS OS[T]REI") }],
  fingerMarks: 'notJudged',
});
const plates: ManifestPlate[] = [
  {
    file: 'face 1.png',
    format: 'image/png',
    shows: 'face',
    side: 0,
    width: 700,
    height: 690,
    mmPerDot: 0.05,
    captions: inEveryLanguage(() => 'A.'),
  },
  {
    file: 'strip.png',
    format: 'image/png',
    shows: 'strip',
    side: 0,
    width: 2600,
    height: 140,
    mmPerDot: 0.04,
    captions: inEveryLanguage(() => 'B.'),
  },
];
const base = 'https://example.org/seals/12/';
const made = cardManifest(card, plates, { base, tei: 'card.xml', jsonLd: 'card.jsonld' });

/** Every object below, with the key it stands under. */
function* parts(value: unknown, key = ''): Generator<{ key: string; part: Record<string, unknown> }> {
  if (Array.isArray(value)) for (const each of value) yield* parts(each, key);
  else if (value !== null && typeof value === 'object') {
    yield { key, part: value as Record<string, unknown> };
    for (const [name, inner] of Object.entries(value)) yield* parts(inner, name);
  }
}
const ofType = (type: string) => [...parts(made)].map(({ part }) => part).filter((part) => part.type === type);

// Laws of the IIIF Presentation API 3.0, sections 2, 3 and 5, and of its annex on physical dimensions.
describe('a manifest of the plates', () => {
  it('names every resource by an address under the stated base, each once', () => {
    const ids = [...parts(made)].flatMap(({ part }) => (typeof part.id === 'string' ? [part.id] : []));
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id.startsWith(base), id).toBe(true);
    expect(ids).toContain(`${base}face%201.png`);
  });

  it('has a canvas a plate, as large as its picture, painted on it', () => {
    const canvases = ofType('Canvas');
    expect(canvases).toHaveLength(2);
    for (const [k, canvas] of canvases.entries()) {
      expect([canvas.width, canvas.height]).toEqual([plates[k].width, plates[k].height]);
      const painting = [...parts(canvas)].map(({ part }) => part).filter(({ motivation }) => motivation === 'painting');
      expect(painting).toHaveLength(1);
      expect(painting[0].target).toBe(canvas.id);
      expect(painting[0].body).toMatchObject({ type: 'Image', format: 'image/png', width: canvas.width });
    }
  });

  it('tells millimetres to a dot by the service of physical dimensions', () => {
    const services = ofType('Service');
    expect(services.map(({ physicalScale }) => physicalScale)).toEqual([0.05, 0.04]);
    for (const service of services)
      expect(service).toMatchObject({
        '@context': 'http://iiif.io/api/annex/services/physdim/1/context.json',
        profile: 'http://iiif.io/api/annex/services/physdim',
        physicalUnits: 'mm',
      });
  });

  it('carries the transcription as annotations that supplement the strip, and it alone', () => {
    const texts = ofType('Annotation').filter(({ motivation }) => motivation === 'supplementing');
    expect(texts.map(({ body }) => (body as { value: string }).value)).toEqual([
      expect.stringContaining('CIVITATIS'),
      expect.stringContaining('igillum'),
    ]);
    for (const { target, body } of texts) {
      expect(target).toBe(ofType('Canvas')[1].id);
      expect(body).toMatchObject({ type: 'TextualBody', format: 'text/plain', language: 'la' });
    }
  });

  it('points to TEI and JSON-LD, labels in every language, words in arrays', () => {
    expect(made.seeAlso).toMatchObject([{ format: 'application/tei+xml' }, { format: 'application/ld+json' }]);
    for (const { key, part } of parts(made))
      if (['label', 'value', 'summary'].includes(key) && typeof part.type !== 'string')
        for (const [language, words] of Object.entries(part)) {
          expect(language).toMatch(/^(none|[a-z]{2})$/);
          expect(Array.isArray(words)).toBe(true);
        }
  });

  it('invents no address and no rights', () => {
    expect(made.rights).toBeUndefined();
    expect(() => cardManifest(card, plates, { base: 'seals/12/' })).toThrow(RangeError);
    expect(() => cardManifest(card, plates, { base: 'https://example.org/seals' })).toThrow(/slash/);
    expect(() => cardManifest(card, plates, { base, rights: 'ours' })).toThrow(/creativecommons/);
    const free = 'http://creativecommons.org/licenses/by/4.0/';
    expect(cardManifest(card, plates, { base, rights: free }).rights).toBe(free);
    expect(cardManifest(card, plates, { base, rights: free.replace('http:', 'https:') }).rights).toBe(free);
  });
});
