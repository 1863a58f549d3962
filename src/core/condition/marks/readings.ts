import type { Sense } from '../../face/index.ts';
import type { Mark } from '../types.ts';

/** What a line that is sunk on an impression is of itself. */
const sunkNouns: Partial<Record<Mark['shape'], string>> = {
  cut: 'a cut',
  crack: 'a crack',
  scratch: 'a scratch',
  line: 'a cut, crack or scratch',
};

/** What a mark is read from; heights in the positive's sense. */
export interface MarkFacts {
  readonly shape: Mark['shape'];
  readonly carriedBy: Mark['carriedBy'];
  readonly onSubject: Mark['onSubject'];
  /** Raised or sunk on whichever face carries it. */
  readonly raised: boolean;
  readonly referenceSense: Sense;
  readonly subjectSense: Sense;
  /** Whether the other face is filled, unworn and scanned there. */
  readonly otherIsSound: boolean;
}

const noun = (sense: Sense, which: 'reference' | 'subject', same: boolean): string => {
  const plain = sense === 'intaglio' ? 'matrix' : 'impression';
  return same ? `${which}'s ${plain}` : plain;
};

/**
 * Every cause a mark can have, as sentences, the likelier first. Raised or sunk is a clue and no proof: burr, solder or
 * dirt in a matrix print sunk, and added wax, dirt and bubbles stand raised. All is said in the positive's sense.
 */
export function markReadings(facts: MarkFacts): string[] {
  const same = facts.referenceSense === facts.subjectSense;
  const reference = noun(facts.referenceSense, 'reference', same);
  const subject = noun(facts.subjectSense, 'subject', same);
  if (facts.carriedBy === 'both') return bothReadings(facts, reference, subject);
  if (facts.carriedBy === 'reference') return referenceReadings(facts, reference, subject);
  return subjectReadings(facts, reference, subject);
}

const isLine = (shape: Mark['shape']): boolean => ['cut', 'crack', 'scratch', 'line'].includes(shape);

function bothReadings(
  { shape, referenceSense, subjectSense }: MarkFacts,
  reference: string,
  subject: string,
): string[] {
  if (referenceSense === 'relief' && subjectSense === 'relief')
    return [
      `Both show the same raised ${shape}: the matrix had it before either was made, or one is a cast of the other.`,
      'If it is an accident of the wax and not of the matrix, both descend from one impression.',
    ];
  return [
    `The ${reference} has the ${shape} and the ${subject} shows it: the ${subject} was made after the ${shape}.`,
    'A cast made from an object that already had it shows it as well.',
  ];
}

function referenceReadings(facts: MarkFacts, reference: string, subject: string): string[] {
  const { shape, raised, otherIsSound, referenceSense } = facts;
  const place = otherIsSound
    ? `although the ${subject} is filled, unworn and scanned ${isLine(shape) ? 'along some of it' : 'there'}`
    : `and the ${subject} is worn, not filled or not scanned there`;
  if (referenceSense === 'intaglio' && raised)
    return [
      `The ${reference} has a ${shape} that the ${subject} lacks, ${place}: it is later than the ${subject}, or the wax did not take it.`,
      ...(otherIsSound ? [] : ['Nothing can be said of which came first: absence proves nothing here.']),
      `The ${subject} may come from another matrix or from a copy of this one as it was before.`,
    ];
  if (referenceSense === 'intaglio')
    return [
      `Something stands in the ${reference} today that the ${subject} lacks: dirt, solder, corrosion or burr.`,
      `Or the ${subject} is raised there: wax, dirt or plaster was added to it.`,
    ];
  return raised
    ? [
        `The ${reference} is raised there and the ${subject} is not, ${place}: the matrix was cut, cracked or pitted between the two, or wax, dirt or a bubble sits on the ${reference}.`,
        'Raised speaks for the matrix when independent impressions share it.',
      ]
    : [
        `The ${reference} is scratched, pitted or broken there and the ${subject} is not.`,
        'Or burr, solder or dirt stood on the matrix when it was made.',
      ];
}

function subjectReadings(
  { shape, raised, referenceSense, subjectSense }: MarkFacts,
  reference: string,
  subject: string,
): string[] {
  if (subjectSense === 'intaglio')
    return raised
      ? [
          `The ${subject} has a ${shape} that the ${reference} lacks: damage or cutting of the ${subject} itself, or it was copied from an object that had it.`,
        ]
      : [`Something stands in the ${subject} that the ${reference} lacks: a casting flaw, dirt, solder or corrosion.`];
  if (!raised)
    return [
      `Sunk on the ${subject}: ${sunkNouns[shape] ?? 'a scratch, pit or chip'} of the ${subject} itself, or a burst bubble of a cast.`,
      `Or burr, solder or dirt stood on the matrix when the ${subject} was made.`,
    ];
  const compact = shape === 'bubble' || shape === 'smear' || shape === 'pit';
  const added = `Wax, dirt or plaster added to the ${subject}, or a bubble of the mould it was cast in.`;
  const ofTheMatrix =
    referenceSense === 'intaglio'
      ? `Or the matrix had a ${compact ? 'pit' : shape} when the ${subject} was made that the ${reference} lacks: the ${reference} was mended since, shows an earlier state, or is another matrix or a copy.`
      : `Or the matrix was damaged between the two: the ${subject} is the later.`;
  return compact ? [added, ofTheMatrix] : [ofTheMatrix.replace(/^Or t/, 'T'), added.replace(/^W/, 'Or w')];
}
