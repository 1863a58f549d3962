import type {
  attachments,
  cardShapes,
  castMaterials,
  coverings,
  dateBases,
  imageSizeSources,
  objectClasses,
  objectTypes,
  protections,
  relations,
  sideNames,
  statuses,
  Term,
} from '../terms.ts';

type Words<L extends readonly string[]> = Readonly<Record<Term<L>, string>>;

/** The labels of a printed card's rows. */
export const rowNames = [
  'repository',
  'shelfmark',
  'seal',
  'objectType',
  'attachment',
  'status',
  'covering',
  'protection',
  'class',
  'generation',
  'chain',
  'castMaterial',
  'maker',
  'makersNumber',
  'changeOfSize',
  'originalAttachment',
  'originalStatus',
  'links',
  'owner',
  'colour',
  'side',
  'shape',
  'image',
  'motif',
  'legend',
  'legendExpanded',
  'translation',
  'turn',
  'offset',
  'thickness',
  'piece',
  'surviving',
  'back',
  'fingerMarks',
  'condition',
  'repairs',
  'earlierMoulding',
  'date',
  'notBefore',
  'notAfter',
  'dateBasis',
  'scanFile',
  'scanSha256',
  'scanUnit',
  'scanInstrument',
  'scanOperator',
  'scanDate',
  'scanSpacing',
  'scanProcessing',
  'describedBy',
  'rights',
] as const;
export type RowName = (typeof rowNames)[number];

/** All words of a card in one language. A further language is a further file of this type. */
export interface CardWords {
  readonly rows: Readonly<Record<RowName, string>>;
  readonly classes: Words<typeof objectClasses>;
  readonly objectTypes: Words<typeof objectTypes>;
  readonly attachments: Words<typeof attachments>;
  readonly statuses: Words<typeof statuses>;
  readonly coverings: Words<typeof coverings>;
  readonly protections: Words<typeof protections>;
  readonly shapes: Words<typeof cardShapes>;
  readonly sides: Words<typeof sideNames>;
  readonly castMaterials: Words<typeof castMaterials>;
  readonly relations: Words<typeof relations>;
  readonly dateBases: Words<typeof dateBases>;
  readonly imageFrom: Words<typeof imageSizeSources>;
  /** Who said what unit the file is in. */
  readonly unitFrom: Readonly<Record<'stated' | 'file' | 'assumed', string>>;
  readonly fingerMarks: Readonly<Record<'present' | 'absent' | 'notJudged', string>>;
  /** "2 of 3". */
  readonly nOfM: (n: number, m: number) => string;
  readonly notKnown: string;
  /** Height × width, as sizes are written after their label. */
  readonly sizeOrder: string;
  /** What plates show: a face, a legend laid out straight. */
  readonly plates: Readonly<Record<'face' | 'strip', string>>;
}
