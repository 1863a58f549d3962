import type { Mark, MarkReading } from '../../condition/index.ts';

/** What the two objects of a mark are called, and the mark itself. */
interface Named {
  readonly reference: string;
  readonly subject: string;
  readonly shape: Mark['shape'];
  /** How far the subject could have shown what the reference has. */
  readonly place: string;
  readonly first: boolean;
}

/** A cause that a mark can have, in a sentence. */
export const readingWords = (reading: MarkReading): string => sentences[reading.code](namesOf(reading));

function namesOf({ shape, referenceSense, subjectSense, otherIsSound, first }: MarkReading): Named {
  const plain = (sense: MarkReading['referenceSense']): string => (sense === 'intaglio' ? 'matrix' : 'impression');
  const same = referenceSense === subjectSense;
  const reference = same ? `reference's ${plain(referenceSense)}` : plain(referenceSense);
  const subject = same ? `subject's ${plain(subjectSense)}` : plain(subjectSense);
  const place = otherIsSound
    ? `although the ${subject} is filled, unworn and scanned ${isLine(shape) ? 'along some of it' : 'there'}`
    : `and the ${subject} is worn, not filled or not scanned there`;
  return { reference, subject, shape, place, first };
}

const isLine = (shape: Mark['shape']): boolean => ['cut', 'crack', 'scratch', 'line'].includes(shape);
const isCompact = (shape: Mark['shape']): boolean => ['bubble', 'smear', 'pit'].includes(shape);

/** What a line that is sunk on an impression is of itself. */
const sunkNouns: Partial<Record<Mark['shape'], string>> = {
  cut: 'a cut',
  crack: 'a crack',
  scratch: 'a scratch',
  line: 'a cut, crack or scratch',
};

const sentences: Readonly<Record<MarkReading['code'], (names: Named) => string>> = {
  matrixHadItBefore: ({ shape }) =>
    `Both show the same raised ${shape}: the matrix had it before either was made, or one is a cast of the other.`,
  accidentOfOneImpression: () =>
    'If it is an accident of the wax and not of the matrix, both descend from one impression.',
  lossOfOneImpression: () =>
    'Both lack the same piece, edge against edge and floor against floor: one was cast from the other, or both go back to one impression.',
  stoodOnMatrixOfBoth: () =>
    'Or dirt, burr or solder stood on the matrix when each was made: independent impressions share that.',
  madeAfterIt: ({ reference, subject, shape }) =>
    `The ${reference} has the ${shape} and the ${subject} shows it: the ${subject} was made after the ${shape}.`,
  castOfOneThatHadIt: () => 'A cast made from an object that already had it shows it as well.',
  referenceLaterOrNotTaken: ({ reference, subject, shape, place }) =>
    `The ${reference} has a ${shape} that the ${subject} lacks, ${place}: it is later than the ${subject}, or the wax did not take it.`,
  orderUnknown: () => 'Nothing can be said of which came first: absence proves nothing here.',
  anotherMatrixOrCopyBefore: ({ subject }) =>
    `The ${subject} may come from another matrix or from a copy of this one as it was before.`,
  standsInReference: ({ reference, subject }) =>
    `Something stands in the ${reference} today that the ${subject} lacks: dirt, solder, corrosion or burr.`,
  subjectRaised: ({ subject }) => `Or the ${subject} is raised there: wax, dirt or plaster was added to it.`,
  matrixDamagedOrAddedToReference: ({ reference, subject, place }) =>
    `The ${reference} is raised there and the ${subject} is not, ${place}: the matrix was cut, cracked or pitted between the two, or wax, dirt or a bubble sits on the ${reference}.`,
  sharedSpeaksForMatrix: () => 'Raised speaks for the matrix when independent impressions share it.',
  referenceDamaged: ({ reference, subject }) =>
    `The ${reference} is scratched, pitted or broken there and the ${subject} is not.`,
  stoodOnMatrix: () => 'Or burr, solder or dirt stood on the matrix when it was made.',
  subjectDamagedOrCopied: ({ reference, subject, shape }) =>
    `The ${subject} has a ${shape} that the ${reference} lacks: damage or cutting of the ${subject} itself, or it was copied from an object that had it.`,
  standsInSubject: ({ reference, subject }) =>
    `Something stands in the ${subject} that the ${reference} lacks: a casting flaw, dirt, solder or corrosion.`,
  subjectDamaged: ({ subject, shape }) =>
    `Sunk on the ${subject}: ${sunkNouns[shape] ?? 'a scratch, pit or chip'} of the ${subject} itself, or a burst bubble of a cast.`,
  stoodOnMatrixOfSubject: ({ subject }) => `Or burr, solder or dirt stood on the matrix when the ${subject} was made.`,
  addedToSubject: ({ subject, first }) =>
    `${first ? 'Wax' : 'Or wax'}, dirt or plaster added to the ${subject}, or a bubble of the mould it was cast in.`,
  matrixHadIt: ({ reference, subject, shape, first }) =>
    `${first ? 'The' : 'Or the'} matrix had a ${isCompact(shape) ? 'pit' : shape} when the ${subject} was made that the ${reference} lacks: the ${reference} was mended since, shows an earlier state, or is another matrix or a copy.`,
  matrixDamagedBetween: ({ subject, first }) =>
    `${first ? 'The' : 'Or the'} matrix was damaged between the two: the ${subject} is the later.`,
};
