import type { AccidentCause, StateReading, StateReason, Together } from '../../condition/index.ts';

/** The ground of a reading of state, in a sentence. */
export function stateReasonWords(reason: StateReason): string {
  switch (reason.code) {
    case 'bothWays':
      return 'Marks speak both ways: two matrices, a mended matrix, or a mark misread.';
    case 'referenceHas':
      return 'The reference has what the subject lacks on sound ground.';
    case 'subjectHas':
      return 'The subject has what the reference lacks.';
    case 'hidden':
      return 'The reference has a mark where the subject is worn, lost, not filled or not scanned.';
    case 'noneSeen':
      return 'No mark of the matrix is seen on either, and a fine one may escape the scans.';
    case 'tooLittleSound':
      return `Only ${Math.round(100 * reason.soundFraction)} % of the face could show a change.`;
    case 'shared':
      return 'Both carry the same marks of the matrix, and neither has one that the other lacks.';
    case 'twoMatrices':
      return 'The two are read as of different matrices: their states do not compare.';
    case 'undecided':
      return 'It is undecided whether both are of one matrix, and states are those of one.';
    case 'noFit':
      return 'No fit was found.';
  }
}

/** Two objects that each have what the other lacks. `names`: of the subjects. */
export function contradictionWords(
  { one, two, onlyOne, onlyTwo }: Together['contradictions'][number],
  names: readonly string[],
): string {
  const first = one === null ? 'The reference' : names[one];
  return `${first} shows ${onlyOne.join(', ')} without ${onlyTwo.join(', ')}, and ${names[two]} the reverse: two matrices, a mended matrix, or a mark misread.`;
}

const causes: Record<AccidentCause, string> = {
  onTheMatrix: 'dirt, burr or solder stood on the matrix when each was made, which independent impressions share',
  oneImpression: 'or one impression had it, from which they all descend',
};

/** A sunk mark that several subjects share and the reference lacks, with all its causes. `names`: of the subjects. */
export function sharedAccidentWords(
  { subjects, mark, causes: possible }: Together['sharedAccidents'][number],
  names: readonly string[],
): string {
  const who = subjects.map((k) => names[k]).join(', ');
  return `${who} share ${mark}, sunk, which the reference lacks: ${possible.map((cause) => causes[cause]).join(', ')}.`;
}

/** How the states of the two stand to one another. */
export function stateSentence({ reading, marks }: Pick<StateReading, 'reading' | 'marks'>): string {
  const named = marks.length > 0 ? ` (${marks.join(', ')})` : '';
  switch (reading) {
    case 'sameState':
      return `The marks show no change of state between the two${named}.`;
    case 'subjectEarlier':
      return `The subject reads as earlier than marks on the reference${named}.`;
    case 'subjectLater':
      return `The subject reads as later than the reference as it is${named}.`;
    case 'cannotJudge':
      return 'The order of states cannot be judged.';
  }
}
