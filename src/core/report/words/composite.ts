import type { Composite, LeftOut, WitnessStanding } from '../../read/index.ts';

const states = {
  sameState: 'same state',
  subjectEarlier: 'earlier state',
  subjectLater: 'later state',
  cannotJudge: 'state cannot be judged',
} as const;

/** What was asked of a witness: nothing is called "this matrix" where the reference is none. */
const asked = {
  madeFrom: 'made from this matrix or a faithful copy of it',
  oneMatrix: 'of one matrix with the first, or of faithful copies of it',
  oneParent: 'a copy of the first, or both of one parent',
} as const;

/** What judgement says of a witness, for its line. */
export function standingWords({ finding, state, question }: Omit<WitnessStanding, 'name'>): string {
  const said = `${question ? asked[question] : 'of one matrix with the first'}: ${finding ?? 'not judged'}`;
  return state ? `${said}; ${states[state]}` : said;
}

/** Why a witness has no part in a composite. */
export function leftOutWords(each: LeftOut): string {
  switch (each.code) {
    case 'notSupported':
      return `${each.name} (that it is of one matrix with the first is not supported: ${each.finding ?? 'not judged'})`;
    case 'otherState':
      return `${each.name} (another state of the matrix)`;
    case 'stateNotJudged':
      return `${each.name} (its state was not judged)`;
    case 'notInRegister':
      return `${each.name} (not in register with the others)`;
    case 'kin':
      return each.isCopy
        ? `${each.name} (a copy of ${each.of}: the two count once)`
        : `${each.name} (of one descent with ${each.of}, which of them is the copy is not known: the two count once)`;
  }
}

/** What stands under a composite, or why there is none. */
export function compositeWords(composite: Composite): string {
  const out = composite.leftOut.length > 0 ? ` Left out: ${composite.leftOut.map(leftOutWords).join('; ')}.` : '';
  if (composite.refused) return `No composite: fewer than two witnesses are left.${out}`;
  const { names, shares, leftOut, stateUntold } = composite;
  const used = names.filter((name) => !leftOut.some((each) => each.name === name));
  const parts = used.map((name) => `${name} ${Math.round(100 * shares[names.indexOf(name)])} %`).join(', ');
  const untold =
    stateUntold.length > 0
      ? ` Whether ${stateUntold.join(' and ')} show${stateUntold.length === 1 ? 's' : ''} the same state of the matrix cannot be judged.`
      : '';
  return `Composite of ${used.length} witnesses (${parts}): no single object shows this.${untold}${out}`;
}
