import type { Counted, Judgement } from '../../judge/index.ts';
import { cautionSentence, edgeWords, lossesWords, nearerWords, stepWords } from './descent.ts';
import { micrometres } from './numbers.ts';
import { claimWords } from './question.ts';

type Said = Pick<Judgement, 'finding' | 'strength' | 'claim' | 'counted' | 'caution'> &
  Partial<Pick<Judgement, 'descent' | 'descentBy'>>;

/** A finding in two parts: the plain answer, and what it rests on. */
export interface FindingParts {
  readonly plain: string;
  readonly rest: string;
}

/**
 * The finding: the plain answer, the state that is shown (a sentence, or nothing), the strength, over which rival, the
 * ground that decided, and what size says against it.
 */
export const findingSentence = (judgement: Said, state = ''): string => {
  const { plain, rest } = findingParts(judgement, state);
  return `${plain} ${rest}`;
};

/** The same, the plain answer apart, so that it can be printed large. A state is told of what is supported alone. */
export function findingParts(judgement: Said, state = ''): FindingParts {
  const { finding, caution } = judgement;
  const { plain, rest } = answer(judgement);
  const parts = [finding === 'supported' ? state : '', rest, caution ? cautionSentence(caution) : ''];
  return { plain, rest: parts.filter((part) => part !== '').join(' ') };
}

/** The plain answer before it is known which of the two stands nearer the original. */
export const weighedWords: Readonly<Record<Judgement['finding'], string>> = {
  supported: `${claimWords.oneOrigin.plain}.`,
  against: 'Another matrix.',
  otherDesign: 'Another design.',
  undecided: 'Not decided.',
};

/** A copy was not made from what was made from it: both go back to one matrix, and which stands nearer it is said. */
function ofOneDescent({ strength, counted, descent, descentBy }: Said): FindingParts | null {
  if (!descent || descent === 'cannotJudge') return null;
  const { claim, rival } = claimWords.oneOrigin;
  const losses = descentBy?.losses ? ` ${lossesWords(descentBy.losses)}` : '';
  const edge = descentBy?.edge ? ` ${edgeWords(descentBy.edge)}` : '';
  const step = descentBy?.step ? ` ${stepWords(descentBy.step)}` : '';
  return {
    plain: `Of one descent${unlessMatrix(descentBy)}: ${nearerWords[descent]}.`,
    rest: `The evidence supports (${strength}) that ${claim}, over ${rival}: ${countedWords(counted)}.${losses}${edge}${step}`,
  };
}

/** An edge and a single piece have another explanation, which belongs into the first sentence; several pieces and size steps have none. */
function unlessMatrix(by: Said['descentBy']): string {
  if (!by || by.size || (by.losses && by.losses.count > 1)) return '';
  if (by.edge) return ', unless the matrix itself ends along this edge';
  return by.losses ? ', unless the matrix itself leaves this piece out' : '';
}

/** Where places decide nothing and the broken edge does. */
function brokenAlike({ descent, descentBy }: Said): string {
  if (!descent || descent === 'cannotJudge' || !descentBy?.edge) return '';
  const step = descentBy.step ? ` ${stepWords(descentBy.step)}` : '';
  return ` ${edgeWords(descentBy.edge)} Where that can be ruled out they are of one descent: ${nearerWords[descent]}.${step}`;
}

function answer(said: Said): FindingParts {
  const { finding, strength, claim, counted } = said;
  const { claim: claimed, rival, plain } = claimWords[claim];
  switch (finding) {
    case 'supported':
      return (
        ofOneDescent(said) ?? {
          plain: `${plain}.`,
          rest: `The evidence supports (${strength}) that ${claimed}, over ${rival}: ${countedWords(counted)}.`,
        }
      );
    case 'against':
      return {
        plain: 'Another matrix.',
        rest: `The evidence speaks (${strength}) for ${rival}, over the claim that ${claimed}: ${countedWords(counted)}.`,
      };
    case 'otherDesign':
      return {
        plain: `Another design (${strength}).`,
        rest: 'Both faces are clear enough that one design would have been found on the two, and nothing corresponds; they may still be two sides of one seal.',
      };
    case 'undecided':
      return {
        plain: 'Not decided.',
        rest:
          counted.code === 'noFit'
            ? `No way was found to lay the two faces on one another, so the claim that ${claimed} has no support; two unrelated seals look like this, and so does a pair too worn or too broken to compare.`
            : `The evidence does not decide between the claim that ${claimed} and ${rival}: ${countedWords(counted)}.${brokenAlike(said)}`,
      };
  }
}

/** The counts behind the sentence. */
function countedWords(counted: Counted): string {
  if (counted.code !== 'cells' && counted.code !== 'places')
    return counted.code === 'noFit' ? 'no fit was found' : 'too few places are seen on both';
  const congruent = `${counted.congruent} of ${counted.compared} cells of the face are congruent`;
  if (counted.code === 'cells') return `${congruent}; too few places of letters and ornaments are seen on both`;
  const { seen, halfWithinMm, outsideEllipse, unseen } = counted;
  const missing = unseen > 0 ? `; ${unseen} more ${unseen === 1 ? 'has' : 'have'} nothing that corresponds` : '';
  return `of ${seen} places of letters and ornaments half lie within ${micrometres(halfWithinMm)} of where the others put them, ${outsideEllipse} of them outside their error ellipses${missing}; ${congruent}`;
}
