import { cardJsonLd, cardManifest, cardTei, type ManifestPlate, manifestFault } from '../../../core/read/index.ts';
import { manifestFaultWords } from '../../../core/report/words/index.ts';
import type { FacePicture, GreyPicture, StripView } from '../../../workers/browser/readingProtocol.ts';
import { download } from '../../state/download.ts';
import { pictureBlob } from './pictureUrl.ts';
import type { CardNow } from './useCard.ts';

/** What keeps a manifest from being made, in a sentence; nothing where none is asked for. */
export function manifestDoubt({ fields }: Pick<CardNow, 'fields'>): string | null {
  const fault = fields.base && manifestFault({ base: fields.base, rights: fields.licence || undefined });
  return fault ? manifestFaultWords(fault) : null;
}

/** The manifest with its plates, TEI and JSON-LD, as files that are to lie at the stated address. */
export function saveManifest(now: CardNow, stem: string, face: FacePicture | null, strip: StripView | null): void {
  if (manifestDoubt(now)) return;
  const { card, fields, language } = now;
  const shown: { shows: ManifestPlate['shows']; picture: GreyPicture; mmPerDot: number }[] = [
    ...(face ? [{ shows: 'face' as const, picture: face, mmPerDot: face.pitch }] : []),
    ...(strip ? [{ shows: 'strip' as const, picture: strip.picture, mmPerDot: strip.places.grid.pitch }] : []),
  ];
  const plates = shown.map(({ shows, picture: { width, height, captions }, mmPerDot }): ManifestPlate => {
    const file = `${stem}-${shows}.png`;
    return { file, format: 'image/png', shows, side: 0, width, height, mmPerDot, captions };
  });
  const [tei, jsonLd] = [`${stem}-card.xml`, `${stem}-card.jsonld`];
  const manifest = cardManifest(card, plates, {
    ...{ base: fields.base ?? '', rights: fields.licence || undefined, tei, jsonLd },
  });
  const json = (value: unknown): Blob => new Blob([JSON.stringify(value, null, 1)], { type: 'application/json' });
  download(json(manifest), 'manifest.json');
  download(json(cardJsonLd(card)), jsonLd);
  download(new Blob([cardTei(card, language)], { type: 'application/tei+xml' }), tei);
  for (const [k, { picture }] of shown.entries()) download(pictureBlob(picture, 0), plates[k].file);
}
