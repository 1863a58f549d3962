import {
  attachments,
  attachmentWords,
  cardShapes,
  dateBasisWords,
  objectClasses,
  shapeWords,
  type Transcription,
  validateCard,
} from '../../../core/read/index.ts';
import type { FaceView } from '../../../workers/browser/protocol.ts';
import { kindWords } from '../../frame/words.ts';
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

const choices = (words: Readonly<Record<string, string>>, names: readonly string[]) =>
  names.map((name): [string, string] => [name, words[name]]);
const field = (name: string, label: string, more: Omit<CardField, 'name' | 'label'> = {}): CardField => ({
  name,
  label,
  ...more,
});
const wide = { wide: true } as const;
const area = { wide: true, area: true } as const;

/** The form, group by group. */
export const cardGroups: ReadonlyArray<{ readonly title: string; readonly fields: readonly CardField[] }> = [
  {
    title: 'Where it is',
    fields: [
      field('shelfmark', 'Shelfmark', wide),
      field('repository', 'Repository', wide),
      field('sealNumber', 'Seal'),
      field('sealOf', 'of'),
      field('attachment', 'Attachment', { wide: true, choices: choices(attachmentWords, attachments) }),
    ],
  },
  {
    title: 'The object',
    fields: [
      field('class', 'Object', { choices: choices(kindWords, objectClasses) }),
      field('generation', 'Copying steps'),
      field('chain', 'Chain, oldest first', wide),
      field('owner', 'Owner of the seal', wide),
      field('shape', 'Shape', { choices: choices(shapeWords, cardShapes) }),
      field('colour', 'Colour'),
    ],
  },
  {
    title: 'Size, mm',
    fields: [
      field('faceHeight', 'Face, height'),
      field('faceWidth', 'Face, width'),
      field('cakeHeight', 'Cake, height'),
      field('cakeWidth', 'Cake, width'),
      field('measured', 'Measured from', wide),
    ],
  },
  {
    title: 'What it shows',
    fields: [
      field('motif', 'Motif', area),
      field('condition', 'Condition', area),
      field('repairs', 'Repairs', wide),
      field('earlierMoulding', 'Earlier moulding', wide),
      field('back', 'Back', wide),
      field('fingerMarks', 'Finger marks', {
        wide: true,
        choices: [
          ['notJudged', 'not judged'],
          ['present', 'present'],
          ['absent', 'none seen'],
        ],
      }),
    ],
  },
  {
    title: 'Date',
    fields: [
      field('dateWords', 'As printed', wide),
      field('notBefore', 'Not before'),
      field('notAfter', 'Not after'),
      field('dateBasis', 'Dated by', {
        wide: true,
        choices: choices(dateBasisWords, Object.keys(dateBasisWords)),
      }),
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
  { title: 'This card', fields: [field('describedBy', 'Described by', wide), field('rights', 'Rights', wide)] },
];

/** What is known without being told: from the scan, its face, and what was stated about it. */
export function prefilled(scan: ScanEntry, face: FaceView): Record<string, string> {
  const { kind, outline, picture } = face;
  const steps = { matrix: '0', impression: '1', mould: '2', cast: '3' }[kind];
  const material = scan.stated.material ?? 'not stated';
  return {
    // What a scan cannot show is left to the cataloguer: whether wax hangs on a document.
    attachment: kind === 'impression' ? 'notStated' : 'notAttached',
    class: kind,
    generation: kind === 'matrix' || kind === 'impression' ? steps : '',
    chain:
      kind === 'matrix'
        ? `matrix (${material})`
        : kind === 'impression'
          ? `matrix (not known), impression (${material})`
          : `${kind} (${material})`,
    shape: outline.shape,
    faceHeight: outline.heightMm.toFixed(1),
    faceWidth: outline.widthMm.toFixed(1),
    measured: 'outline of the face on the scan',
    fingerMarks: 'notJudged',
    dateBasis: 'style',
    pointSpacing: String(Number(picture.pitch.toPrecision(2))),
  };
}

const text = (value: string | undefined): string | undefined => (value?.trim() ? value.trim() : undefined);
const whole = (value: string | undefined): number | undefined =>
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

/** The card as the core knows it; not yet looked through. */
export function cardFrom(draft: CardDraft, scan: ScanEntry, face: FaceView, legend: Transcription): unknown {
  const f: CardDraft = { ...prefilled(scan, face), ...draft };
  const seal =
    text(f.sealNumber) || text(f.sealOf) ? { number: Number(f.sealNumber), of: Number(f.sealOf) } : undefined;
  const dated = text(f.dateWords) || text(f.notBefore) || text(f.notAfter);
  return withoutEmpty({
    schema: 'ectype/card/1',
    repository: text(f.repository),
    shelfmark: f.shelfmark ?? '',
    seal,
    attachment: f.attachment,
    object: { class: f.class, generation: whole(f.generation) ?? null, chain: chainOf(f.chain ?? '') },
    owner: text(f.owner),
    colour: text(f.colour),
    shape: f.shape,
    face: { heightMm: Number(f.faceHeight), widthMm: Number(f.faceWidth) },
    cake: pair(f.cakeHeight, f.cakeWidth),
    measured: f.measured ?? '',
    motif: text(f.motif),
    legend: legend.items.length > 0 ? legend : undefined,
    back: text(f.back),
    fingerMarks: f.fingerMarks,
    condition: text(f.condition),
    repairs: text(f.repairs),
    earlierMoulding: text(f.earlierMoulding),
    date: dated
      ? withoutEmpty({
          words: text(f.dateWords) ?? datedBetween(f.notBefore, f.notAfter),
          notBefore: whole(f.notBefore),
          notAfter: whole(f.notAfter),
          basis: f.dateBasis,
          basisWords: text(f.dateBasisWords),
        })
      : undefined,
    scan: withoutEmpty({
      file: scan.name,
      sha256: face.sha256,
      unit: face.unit,
      unitFrom: face.unitFrom,
      instrument: text(f.instrument),
      operator: text(f.operator),
      date: text(f.scanDate),
      pointSpacingMm: whole(f.pointSpacing),
      processing:
        [text(f.processing), scan.simulated ? 'simulated: computed, not scanned' : undefined]
          .filter(Boolean)
          .join('; ') || undefined,
    }),
    describedBy: text(f.describedBy),
    rights: text(f.rights),
  });
}

function datedBetween(from: string | undefined, to: string | undefined): string {
  if (text(from) && text(to)) return `${text(from)} to ${text(to)}`;
  return text(from) ? `not before ${text(from)}` : `not after ${text(to)}`;
}

/** Each fault in a sentence, with the field of the form that it is in. */
export function cardFaults(card: unknown): { readonly field: string; readonly words: string }[] {
  return validateCard(card).map(({ field: path, words }) => {
    const known = sentences.find(([start]) => path.startsWith(start));
    // The core's own sentences end with a full stop; the schema's do not.
    const own = words.endsWith('.') && !words.startsWith('Invalid');
    return { field: known?.[1] ?? path, words: own || !known ? words : known[2] };
  });
}

const sentences: ReadonlyArray<readonly [path: string, field: string, words: string]> = [
  ['shelfmark', 'shelfmark', 'The shelfmark is missing.'],
  ['seal', 'sealNumber', 'Seal n of m takes two whole numbers.'],
  ['attachment', 'attachment', 'Choose how it is attached.'],
  ['object.generation', 'generation', 'Copying steps are a whole number, or left empty where not known.'],
  ['object.chain', 'chain', 'The chain names matrix, mould, impression or cast, each with its material in brackets.'],
  ['face', 'faceHeight', 'The face takes two sizes in mm.'],
  ['cake', 'cakeHeight', 'The cake takes two sizes in mm, or none.'],
  ['measured', 'measured', 'Say what was measured.'],
  ['date', 'notBefore', 'Years are whole numbers; give the date in words as well.'],
  ['scan.date', 'scanDate', 'The day of the scan is written year-month-day.'],
  ['legend', 'legend', 'The legend has a fault; see the leaf legend.'],
  ['shape', 'shape', 'Choose the shape.'],
];
