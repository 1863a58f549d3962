import { cardLanguages, diplomatic, expanded } from '../text/index.ts';
import type { Card } from './card.ts';
import { cardRows } from './cardRows.ts';
import { cardWords, type InEveryLanguage } from './words/index.ts';

/** A plate that lies beside the manifest. */
export interface ManifestPlate {
  /** File name under the base address. */
  readonly file: string;
  readonly format: 'image/png' | 'image/tiff';
  readonly shows: 'face' | 'strip';
  /** Which side of the card, 0 or 1. */
  readonly side: number;
  readonly width: number;
  readonly height: number;
  /** Millimetres of the object to a dot. */
  readonly mmPerDot: number;
  readonly captions: InEveryLanguage;
}

export interface ManifestOptions {
  /** Where manifest and plates will lie, as the user states it; it ends with a slash. */
  readonly base: string;
  /** Address of a licence (creativecommons.org or rightsstatements.org), as the user states it; none unless stated. */
  readonly rights?: string | undefined;
  /** Files of the card that lie beside it. */
  readonly tei?: string | undefined;
  readonly jsonLd?: string | undefined;
}

type Json = Record<string, unknown>;

/** Addresses that the `rights` of a manifest may have (IIIF Presentation 3.0, section 3.1); browsers show them with https, the registers name them with http. */
const rightsAddress = /^https?:\/\/(creativecommons\.org\/(licenses|publicdomain)\/|rightsstatements\.org\/vocab\/)/;

/** What the stated address or rights of a manifest are not: a web address that ends with a slash, an address of the two registers. */
export type ManifestFault = 'base' | 'rights';

/** Which of the stated address and rights of a manifest cannot be used, or null. */
export function manifestFault({ base, rights }: Pick<ManifestOptions, 'base' | 'rights'>): ManifestFault | null {
  if (!/^https?:\/\/\S+\/$/.test(base)) return 'base';
  return rights !== undefined && !rightsAddress.test(rights) ? 'rights' : null;
}

/**
 * The plates of a card as a manifest (IIIF Presentation API 3.0): a canvas a plate, its size in millimetres by the
 * physical-dimensions service, the legend's transcription as an annotation that supplements, the card's TEI and JSON-LD as
 * `seeAlso`. Address and rights are the user's; nothing is invented. Throws RangeError for a base that is no web address
 * or rights that are no address of the two registers.
 */
export function cardManifest(card: Card, plates: readonly ManifestPlate[], options: ManifestOptions): Json {
  const { base, rights } = options;
  const fault = manifestFault(options);
  if (fault === 'base')
    throw new RangeError(`A manifest lies at a web address that ends with a slash, not at "${base}".`);
  if (fault === 'rights')
    throw new RangeError(`"${rights}" is no address of creativecommons.org or rightsstatements.org.`);
  return {
    '@context': 'http://iiif.io/api/presentation/3/context.json',
    id: `${base}manifest.json`,
    type: 'Manifest',
    label: inNone([card.repository, card.shelfmark].filter(Boolean).join(', ')),
    metadata: metadataOf(card),
    ...(rights && { rights: rights.replace(/^https:/, 'http:') }),
    ...(card.rights && {
      requiredStatement: { label: inAll((language) => cardWords[language].rows.rights), value: inNone(card.rights) },
    }),
    ...seeAlsoOf(options),
    items: plates.map((plate, k) => canvasOf(card, plate, `${base}canvas/${k + 1}`, base)),
  };
}

const inNone = (text: string): Json => ({ none: [text] });

const inAll = (words: (language: (typeof cardLanguages)[number]) => string): Json =>
  Object.fromEntries(cardLanguages.map((language) => [language, [words(language)]]));

/** The card's rows that say something, labels and closed terms in every language. */
function metadataOf(card: Card): Json[] {
  const byLanguage = cardLanguages.map((language) => cardRows(card, language));
  return byLanguage[0].flatMap(({ value }, i) => {
    if (value === '') return [];
    const values = byLanguage.map((rows) => rows[i].value);
    const same = values.every((each) => each === values[0]);
    return [
      {
        label: Object.fromEntries(cardLanguages.map((language, k) => [language, [byLanguage[k][i].label]])),
        value: same ? inNone(value) : Object.fromEntries(cardLanguages.map((language, k) => [language, [values[k]]])),
      },
    ];
  });
}

function seeAlsoOf({ base, tei, jsonLd }: ManifestOptions): Json {
  const list = [
    ...(tei ? [{ id: `${base}${tei}`, type: 'Dataset', format: 'application/tei+xml', label: inNone('TEI P5') }] : []),
    ...(jsonLd
      ? [{ id: `${base}${jsonLd}`, type: 'Dataset', format: 'application/ld+json', label: inNone('JSON-LD') }]
      : []),
  ];
  return list.length > 0 ? { seeAlso: list } : {};
}

function canvasOf(card: Card, plate: ManifestPlate, id: string, base: string): Json {
  const { file, format, shows, side, width, height, mmPerDot, captions } = plate;
  return {
    id,
    type: 'Canvas',
    label: inAll((language) => plateLabel(card, plate, language)),
    summary: inAll((language) => captions[language]),
    width,
    height,
    service: [
      {
        '@context': 'http://iiif.io/api/annex/services/physdim/1/context.json',
        id: `${id}/size`,
        type: 'Service',
        profile: 'http://iiif.io/api/annex/services/physdim',
        physicalScale: Number(mmPerDot.toPrecision(6)),
        physicalUnits: 'mm',
      },
    ],
    items: [
      {
        id: `${id}/page`,
        type: 'AnnotationPage',
        items: [
          {
            id: `${id}/painting`,
            type: 'Annotation',
            motivation: 'painting',
            body: { id: `${base}${encodeURIComponent(file)}`, type: 'Image', format, width, height },
            target: id,
          },
        ],
      },
    ],
    ...(shows === 'strip' && transcriptionOf(card, side, id)),
  };
}

function plateLabel({ sides }: Card, { shows, side }: ManifestPlate, language: (typeof cardLanguages)[number]): string {
  const words = cardWords[language];
  const named = sides[side] && sides[side].side !== 'unknown' ? `, ${words.sides[sides[side].side]}` : '';
  return `${words.plates[shows]}${named}`;
}

/** The legend as it stands and in full, each an annotation that supplements the canvas. */
function transcriptionOf({ sides }: Card, side: number, id: string): Json {
  const legend = sides[side]?.legend;
  if (!legend) return {};
  const texts = [
    ['diplomatic', diplomatic(legend)],
    ['expanded', expanded(legend)],
  ].filter(([, value]) => value !== '');
  return {
    annotations: [
      {
        id: `${id}/legend`,
        type: 'AnnotationPage',
        items: texts.map(([name, value]) => ({
          id: `${id}/legend/${name}`,
          type: 'Annotation',
          motivation: 'supplementing',
          body: { type: 'TextualBody', value, format: 'text/plain', language: legend.language },
          target: id,
        })),
      },
    ],
  };
}
