import type { CardLanguage, Composite, LeftOut, WitnessStanding } from '../../read/index.ts';
import { captionWords } from './captions/index.ts';

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
export function leftOutWords(each: LeftOut, language: CardLanguage = 'en'): string {
  return `${each.name} (${whyOf(each, language)})`;
}

function whyOf(each: LeftOut, language: CardLanguage): string {
  const { why, findings } = captionWords[language].composite;
  switch (each.code) {
    case 'notSupported':
      return why.notSupported(findings[each.finding ?? 'notJudged']);
    case 'otherState':
      return why.otherState;
    case 'stateNotJudged':
      return why.stateNotJudged;
    case 'notInRegister':
      return why.notInRegister;
    case 'kin':
      return each.isCopy ? why.copyOf(each.of) : why.oneDescentWith(each.of);
  }
}

/** What stands under a composite, or why there is none. */
export function compositeWords(composite: Composite, language: CardLanguage = 'en'): string {
  const w = captionWords[language].composite;
  const out = composite.leftOut.map((each) => leftOutWords(each, language));
  const last = out.length > 0 ? [w.leftOut(out)] : [];
  if (composite.refused) return [w.refused, ...last].join(' ');
  const { names, shares, leftOut, stateUntold } = composite;
  const used = names.filter((name) => !leftOut.some((each) => each.name === name));
  const parts = used.map((name) => `${name} ${Math.round(100 * shares[names.indexOf(name)])} %`);
  return [w.of(parts), ...(stateUntold.length > 0 ? [w.stateUntold(stateUntold)] : []), ...last].join(' ');
}
