import {
  attachments,
  type CardLanguage,
  type CardScan,
  cardLanguages,
  cardOfFields,
  cardShapes,
  cardWords,
  castMaterials,
  coverings,
  dateBases,
  fieldFaults,
  imageSizeSources,
  objectClasses,
  objectTypes,
  prefilledFields,
  protections,
  sideNames,
  statuses,
  type Transcription,
} from '../../../core/read/index.ts';
import { fieldFaultWords } from '../../../core/report/words/index.ts';
import type { FaceView } from '../../../workers/browser/protocol.ts';
import type { ScanEntry } from '../../state/document.ts';
import type { CardDraft } from '../../state/readDocument.ts';

/** A field of the form. */
export interface CardField {
  readonly name: string;
  readonly label: string;
  readonly wide?: boolean;
  readonly area?: boolean;
  /** Value and words of what can be chosen. */
  readonly choices?: ReadonlyArray<readonly [string, string]>;
}

const words = cardWords.en;
const languageNames = [
  ['en', 'English'],
  ['fr', 'français'],
  ['de', 'Deutsch'],
  ['es', 'español'],
] as const;

const choices = (of: Readonly<Record<string, string>>, names: readonly string[]) =>
  names.map((name): [string, string] => [name, of[name]]);
const field = (name: string, label: string, more: Omit<CardField, 'name' | 'label'> = {}): CardField => ({
  name,
  label,
  ...more,
});
const wide = { wide: true } as const;
const area = { wide: true, area: true } as const;
const chosen = (of: Readonly<Record<string, string>>, names: readonly string[]) => ({
  wide: true,
  choices: choices(of, names),
});
/** May be left empty: nothing is there. */
const maybe = (of: Readonly<Record<string, string>>, names: readonly string[]) => ({
  wide: true,
  choices: [['', 'not stated'], ...choices(of, names)] as const,
});

export interface CardGroup {
  readonly title: string;
  readonly fields: readonly CardField[];
  /** Shown for objects of this class alone. */
  readonly only?: 'cast';
  /** Folded away until it is asked for. */
  readonly folded?: boolean;
}

/** The form, group by group. */
export const cardGroups: readonly CardGroup[] = [
  {
    title: 'Where it is',
    fields: [
      field('shelfmark', 'Shelfmark', wide),
      field('repository', 'Repository', wide),
      field('sealNumber', 'Seal'),
      field('sealOf', 'of'),
      field('attachment', 'Attachment', chosen(words.attachments, attachments)),
      field('status', 'Status', chosen(words.statuses, statuses)),
      field('covering', 'Covering', chosen(words.coverings, coverings)),
      field('protection', 'Protection', chosen(words.protections, protections)),
    ],
  },
  {
    title: 'The object',
    fields: [
      field('objectType', 'Object type', chosen(words.objectTypes, objectTypes)),
      field('class', 'What was scanned', chosen(words.classes, objectClasses)),
      field('generation', 'Copying steps'),
      field('colour', 'Colour'),
      field('chain', 'Chain, oldest first', wide),
      field('owner', 'Owner of the seal', wide),
    ],
  },
  {
    title: 'The cast and its original',
    only: 'cast',
    fields: [
      field('castMaterial', 'Material of the cast', chosen(words.castMaterials, castMaterials)),
      field('maker', 'Maker'),
      field('makersNumber', 'Maker’s number'),
      field('changePercent', 'Change of size, %'),
      field('changeSource', 'By what source'),
      field('originalAttachment', 'Attachment of the original', chosen(words.attachments, attachments)),
      field('originalStatus', 'Status of the original', chosen(words.statuses, statuses)),
    ],
  },
  {
    title: 'This side',
    fields: [
      field('side', 'Side', chosen(words.sides, sideNames)),
      field('shape', 'Shape', chosen(words.shapes, cardShapes)),
      field('imageHeight', 'Image, height mm'),
      field('imageWidth', 'Image, width mm'),
      field('imageFrom', 'Image measured', maybe(words.imageFrom, imageSizeSources)),
      field('motif', 'Motif', area),
    ],
  },
  {
    title: 'The other side',
    folded: true,
    fields: [
      field('side2', 'Side', maybe(words.sides, sideNames)),
      field('shape2', 'Shape', maybe(words.shapes, cardShapes)),
      field('imageHeight2', 'Image, height mm'),
      field('imageWidth2', 'Image, width mm'),
      field('imageFrom2', 'Image measured', maybe(words.imageFrom, imageSizeSources)),
      field('motif2', 'Motif', area),
      field('legend2', 'Legend', wide),
      field('turn', 'Turn of its top, degrees'),
      field('offset', 'Offset, mm'),
    ],
  },
  {
    title: 'The piece',
    fields: [
      field('pieceHeight', 'Whole, height mm'),
      field('pieceWidth', 'Whole, width mm'),
      field('survivingHeight', 'Surviving, height mm'),
      field('survivingWidth', 'Surviving, width mm'),
      field('thickness', 'Thickness, mm'),
      field('condition', 'Condition', area),
      field('repairs', 'Repairs', wide),
      field('earlierMoulding', 'Earlier moulding', wide),
      field('back', 'Back', wide),
      field('fingerMarks', 'Finger marks', chosen(words.fingerMarks, ['notJudged', 'present', 'absent'])),
    ],
  },
  {
    title: 'Other objects',
    folded: true,
    fields: [
      field('parent', 'Made from', wide),
      field('cast', 'Casts of it', wide),
      field('siblingOfMould', 'Of the same mould', wide),
    ],
  },
  {
    title: 'Date',
    fields: [
      field('dateWords', 'As printed', wide),
      field('notBefore', 'Not before'),
      field('notAfter', 'Not after'),
      field('dateBasis', 'Dated by', chosen(words.dateBases, dateBases)),
      field('dateBasisWords', 'Ground in words', wide),
    ],
  },
  {
    title: 'Scan',
    fields: [
      field('instrument', 'Scanned with', wide),
      field('operator', 'By'),
      field('scanDate', 'On (year-month-day)'),
      field('processing', 'Processing', wide),
    ],
  },
  {
    title: 'This card',
    fields: [
      field('describedBy', 'Described by', wide),
      field('rights', 'Rights', wide),
      field('language', 'Printed in', { wide: true, choices: languageNames }),
    ],
  },
  {
    title: 'For a IIIF manifest',
    folded: true,
    fields: [
      field('base', 'Address of its folder, with a slash at its end', wide),
      field('licence', 'Address of the licence', wide),
    ],
  },
];

/** The language that the card is printed in. */
export const languageOf = (draft: CardDraft): CardLanguage =>
  cardLanguages.find((each) => each === draft.language) ?? 'en';

const scanOf = (scan: ScanEntry, { kind, image, outline, picture, sha256, unit, unitFrom }: FaceView): CardScan => ({
  ...{ name: scan.name, sha256, unit, unitFrom, kind, outline: image ?? outline, pitchMm: picture.pitch },
  ...{ material: scan.stated.material, simulated: scan.simulated },
});

/** What is known without being told: from the scan, its face, and what was stated about it. */
export const prefilled = (scan: ScanEntry, face: FaceView): Record<string, string> =>
  prefilledFields(scanOf(scan, face));

/** The card as the core knows it; not yet looked through. */
export const cardFrom = (draft: CardDraft, scan: ScanEntry, face: FaceView, legend: Transcription): unknown =>
  cardOfFields(draftNow(draft), scanOf(scan, face), legend);

/** Drafts of an earlier version: their face is the image now, their cake the piece, and whether it hangs is said apart. */
export function draftNow(draft: CardDraft): Record<string, string> {
  const { faceHeight, faceWidth, cakeHeight, cakeWidth, measured: _, ...rest } = draft;
  const kept = Object.entries({
    imageHeight: faceHeight,
    imageWidth: faceWidth,
    pieceHeight: cakeHeight,
    pieceWidth: cakeWidth,
  }).filter((entry): entry is [string, string] => entry[1] !== undefined);
  const now: Record<string, string> = { ...Object.fromEntries(kept), ...rest };
  if (now.attachment === 'detached') now.status ??= 'detached';
  if (now.attachment !== undefined && !(attachments as readonly string[]).includes(now.attachment))
    now.attachment = 'unknown';
  return now;
}

/** Each fault in a sentence, with the field of the form that it is in. */
export const cardFaults = (card: unknown) => fieldFaults(card).map(fieldFaultWords);
