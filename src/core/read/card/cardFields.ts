import type { Kind, Unit } from '../../scan/index.ts';
import { itemsOfLeiden, type Transcription } from '../text/index.ts';

/**
 * A card as flat fields of text, as a form or a file of names and values has them; an empty text is none. Names:
 * `cardFieldNames`. The second side's end in 2.
 */
export type CardFields = Readonly<Record<string, string>>;

/** What is known of the scan without being told. */
export interface CardScan {
  readonly name: string;
  readonly sha256: string;
  readonly unit: Unit;
  readonly unitFrom: 'stated' | 'file' | 'assumed';
  readonly kind: Kind;
  /** Cell of the face's relief, mm. */
  readonly pitchMm: number;
  /** Of a matrix its own edge, which is its image's; of what was pressed the face's outline, where the wax ends. */
  readonly outline: { readonly shape: string; readonly heightMm: number; readonly widthMm: number };
  readonly material?: string | undefined;
  readonly simulated?: boolean | undefined;
  /** The image as a comparison made it out, from this object itself or from its partner. */
  readonly image?: { readonly heightMm: number; readonly widthMm: number; readonly from: 'matrixEdge' | 'partner' };
}

export const cardFieldNames = [
  ...['shelfmark', 'repository', 'sealNumber', 'sealOf'],
  ...['objectType', 'attachment', 'status', 'covering', 'protection'],
  ...['class', 'generation', 'chain', 'owner', 'colour'],
  ...['castMaterial', 'maker', 'makersNumber', 'changePercent', 'changeSource', 'originalAttachment', 'originalStatus'],
  ...['parent', 'cast', 'siblingOfMould'],
  ...['side', 'shape', 'imageHeight', 'imageWidth', 'imageFrom', 'motif'],
  ...['side2', 'shape2', 'imageHeight2', 'imageWidth2', 'imageFrom2', 'motif2', 'legend2', 'language2'],
  ...['turn', 'offset', 'thickness', 'pieceHeight', 'pieceWidth', 'survivingHeight', 'survivingWidth'],
  ...['back', 'fingerMarks', 'condition', 'repairs', 'earlierMoulding'],
  ...['dateWords', 'notBefore', 'notAfter', 'dateBasis', 'dateBasisWords'],
  ...['instrument', 'operator', 'scanDate', 'pointSpacing', 'processing', 'describedBy', 'rights'],
] as const;

/**
 * What stands in the fields before anybody writes: what the scan itself shows, and "not known" for the rest. The size of
 * the image only where it is known: a matrix ends where its image ends, and a comparison tells a positive's from its partner.
 */
export function prefilledFields(scan: CardScan): Record<string, string> {
  const { kind } = scan;
  const material = scan.material ?? 'not stated';
  const own = kind === 'matrix' ? { ...scan.outline, from: 'matrixEdge' as const } : undefined;
  const image = scan.image ?? own;
  return {
    ...{ objectType: 'unknown', attachment: 'unknown', status: 'unknown', covering: 'unknown', protection: 'unknown' },
    class: kind,
    generation: kind === 'matrix' ? '0' : kind === 'impression' ? '1' : '',
    chain: kind === 'impression' ? `matrix (not known), impression (${material})` : `${kind} (${material})`,
    ...{ castMaterial: 'unknown', originalAttachment: 'unknown', originalStatus: 'unknown' },
    side: 'unknown',
    shape: kind === 'matrix' ? scan.outline.shape : 'unknown',
    ...(image && {
      imageHeight: image.heightMm.toFixed(1),
      imageWidth: image.widthMm.toFixed(1),
      imageFrom: image.from,
    }),
    fingerMarks: 'notJudged',
    dateBasis: 'style',
    pointSpacing: String(Number(scan.pitchMm.toPrecision(2))),
  };
}

const text = (value: string | undefined): string | undefined => (value?.trim() ? value.trim() : undefined);
const number = (value: string | undefined): number | undefined =>
  text(value) === undefined ? undefined : Number(value);
const pair = (height: string | undefined, width: string | undefined) =>
  text(height) === undefined && text(width) === undefined
    ? undefined
    : { heightMm: Number(height), widthMm: Number(width) };

/** "matrix (brass), impression (beeswax)" as links; what is not in this form is given back as it is, to be refused. */
export function chainOf(words: string): { object: string; material: string }[] {
  if (words.trim() === '') return [];
  return words
    .split(/[,→]+(?![^(]*\))/)
    .filter((part) => part.trim() !== '')
    .map((part) => {
      const found = /^\s*(\S+)\s*(?:\((.*)\))?\s*$/.exec(part);
      return { object: (found?.[1] ?? part.trim()).toLowerCase(), material: found?.[2]?.trim() || 'not known' };
    });
}

const withoutEmpty = (fields: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));

/** The card that fields say; not yet looked through. `legend`: of the first side. */
export function cardOfFields(stated: CardFields, scan: CardScan, legend?: Transcription): unknown {
  const f: Record<string, string | undefined> = { ...prefilledFields(scan), ...stated };
  const seal =
    text(f.sealNumber) || text(f.sealOf) ? { number: Number(f.sealNumber), of: Number(f.sealOf) } : undefined;
  const between = withoutEmpty({
    turnDeg: number(f.turn),
    offsetMm: number(f.offset),
    thicknessMm: number(f.thickness),
  });
  return withoutEmpty({
    schema: 'ectype/card/2',
    repository: text(f.repository),
    shelfmark: f.shelfmark ?? '',
    seal,
    ...{ objectType: f.objectType, attachment: f.attachment, status: f.status },
    ...{ covering: f.covering, protection: f.protection },
    object: { class: f.class, generation: number(f.generation) ?? null, chain: chainOf(f.chain ?? '') },
    cast: castOf(f),
    links: linksOf(f),
    owner: text(f.owner),
    colour: text(f.colour),
    sides: sidesOf(f, legend),
    betweenSides: Object.keys(between).length > 0 ? between : undefined,
    piece: pair(f.pieceHeight, f.pieceWidth),
    surviving: pair(f.survivingHeight, f.survivingWidth),
    back: text(f.back),
    fingerMarks: f.fingerMarks,
    condition: text(f.condition),
    repairs: text(f.repairs),
    earlierMoulding: text(f.earlierMoulding),
    date: dateOf(f),
    scan: scanOf(f, scan),
    describedBy: text(f.describedBy),
    rights: text(f.rights),
  });
}

type Fields = Readonly<Record<string, string | undefined>>;

function castOf(f: Fields): unknown {
  if (f.class !== 'cast') return undefined;
  const percent = number(f.changePercent);
  const source = text(f.changeSource);
  return withoutEmpty({
    material: f.castMaterial,
    maker: text(f.maker),
    makersNumber: text(f.makersNumber),
    // Without a source a change of size is not known, whatever number stands there.
    changeOfSize: percent !== undefined && source ? { percent, source } : undefined,
    original: { attachment: f.originalAttachment, status: f.originalStatus },
  });
}

/** "Cabinet 4, no 12 <https://…>": words, and an address where one stands in angle brackets. Several by semicolons. */
function linksOf(f: Fields): unknown[] {
  return (['parent', 'cast', 'siblingOfMould'] as const).flatMap((relation) =>
    (text(f[relation]) ?? '')
      .split(';')
      .filter((part) => part.trim() !== '')
      .map((part) => {
        const [, words, uri] = /^\s*(.*?)\s*(?:<(\S+)>)?\s*$/.exec(part) as RegExpExecArray;
        return withoutEmpty({ relation, words: words || uri, uri });
      }),
  );
}

function sidesOf(f: Fields, legend: Transcription | undefined): unknown[] {
  const image = (height: string | undefined, width: string | undefined, from: string | undefined): unknown => {
    const size = pair(height, width);
    return size && { ...size, from: text(from) ?? 'stated' };
  };
  const first = withoutEmpty({
    side: f.side,
    shape: f.shape,
    image: image(f.imageHeight, f.imageWidth, f.imageFrom),
    motif: text(f.motif),
    legend: legend && legend.items.length > 0 ? legend : undefined,
  });
  const second = ['shape2', 'imageHeight2', 'imageWidth2', 'motif2', 'legend2'].some((name) => text(f[name]));
  if (!second && !text(f.side2)) return [first];
  const legend2 = text(f.legend2);
  return [
    first,
    withoutEmpty({
      side: text(f.side2) ?? 'unknown',
      shape: text(f.shape2) ?? 'unknown',
      image: image(f.imageHeight2, f.imageWidth2, f.imageFrom2),
      motif: text(f.motif2),
      legend: legend2 && legendOf(legend2, text(f.language2)),
    }),
  ];
}

/** A legend as it is printed, with the marks of the Leiden conventions. */
export const legendOf = (leiden: string, language = 'la'): Transcription => ({
  language,
  items: itemsOfLeiden(leiden),
  sources: [],
});

function dateOf(f: Fields): unknown {
  const [from, to] = [text(f.notBefore), text(f.notAfter)];
  if (!text(f.dateWords) && !from && !to) return undefined;
  const between = from && to ? `${from} to ${to}` : from ? `not before ${from}` : `not after ${to}`;
  return withoutEmpty({
    words: text(f.dateWords) ?? between,
    notBefore: number(f.notBefore),
    notAfter: number(f.notAfter),
    basis: f.dateBasis,
    basisWords: text(f.dateBasisWords),
  });
}

function scanOf(f: Fields, scan: CardScan): unknown {
  const processing = [text(f.processing), scan.simulated ? 'simulated: computed, not scanned' : undefined];
  return withoutEmpty({
    file: scan.name,
    sha256: scan.sha256,
    unit: scan.unit,
    unitFrom: scan.unitFrom,
    instrument: text(f.instrument),
    operator: text(f.operator),
    date: text(f.scanDate),
    pointSpacingMm: number(f.pointSpacing),
    processing: processing.filter(Boolean).join('; ') || undefined,
  });
}
