import type { OnlyCopy } from '../../compare/index.ts';
import type { DescentBy, DescentCode, SizeCaution, SizeSays } from '../../judge/index.ts';
import { capital } from '../../scan/index.ts';
import { materialWords } from './size.ts';

/** What size says of a copy, without the numbers. */
function sizeClause({ favours, copyIs, oneSense }: SizeSays): string {
  const copy = oneSense ? 'a cast of the one from the other' : 'a matrix recast from the impression';
  if (favours === 'copy') return `size speaks for ${copy}: ${copyNames[copyIs]}`;
  if (favours === 'direct')
    return `size speaks against ${copy}; a copy that was moulded from the matrix, or a new impression, passes the same tests`;
  return 'size does not decide, and a faithful copy passes the same tests';
}

const copyNames = {
  reference: 'the reference would be the copy',
  subject: 'the subject would be the copy',
  either: 'either might be the copy',
} as const;

/** What size says of a copy, to stand inside a sentence. */
export const sizeSaysWords = (says: SizeSays): string =>
  `${sizeClause(says)} (size ratio subject to reference ${says.ratio.toFixed(4)} ± ${says.sd.toFixed(4)})`;

/** What size says against a finding of one matrix, beside the finding's own sentence. */
export function cautionSentence(caution: SizeCaution): string {
  if (caution.kind === 'copy') return `${capital(sizeClause(caution))}.`;
  return `But the positive is ${caution.grownPercent.toFixed(1)} % larger than the negative, and neither wax nor plaster grows so much: see the limits.`;
}

/** The same with its numbers, among the limits. */
export function cautionLimitWords(caution: SizeCaution): string {
  if (caution.kind === 'copy')
    return `${capital(sizeSaysWords(caution))}. The score weighs one matrix and its copies against another matrix, and does not part them.`;
  const { grownPercent, sdPercent } = caution;
  return `The positive is ${grownPercent.toFixed(1)} ± ${sdPercent.toFixed(1)} % (1 σ) larger than the negative, and neither wax nor plaster grows so much: if both scans are true to scale, the negative would be a copy, cast from the positive or from one like it. State the scales’ uncertainty to have this weighed.`;
}

/** Which of the two stands nearer the original. */
export const nearerWords: Readonly<Record<Exclude<DescentCode, 'cannotJudge'>, string>> = {
  subjectFromReference:
    'the reference stands nearer the original, and the subject would be a copy that goes back to it or to its like',
  referenceFromSubject:
    'the subject stands nearer the original, and the reference would be a copy that goes back to it or to its like',
  oneDescent: 'one was cast from the other or both from one impression; which stands nearer the original is not known',
};

/** The losses that two positives share, how surely their floors are one, and what chance would lay on one another. */
export const lossesWords = ({ count, areaMm2, byChance, floors }: NonNullable<DescentBy['losses']>): string =>
  `Both lack the same ${piecesWords(count)} (${areaMm2.toFixed(1)} mm²), edge against edge and floor against floor, where chance lays ${byChance === 0 ? 'none' : byChance} on one another.${floors ? ` At the edge the broken floor strays by ${floors.roughMm.toFixed(2)} mm from a smooth form, on both alike.` : ''}`;

export const piecesWords = (count: number): string => (count === 1 ? 'piece' : `${count} pieces`);

/** The broken edge that two positives share: how long, how near, what a smooth curve leaves of it, and what else would show it. */
export const edgeWords = ({ lengthMm, roughMm, apartMm }: NonNullable<DescentBy['edge']>): string =>
  `Both are broken along the same edge: over ${lengthMm.toFixed(0)} mm, where it strays by ${roughMm.toFixed(2)} mm from a smooth curve, the two stray by ${apartMm.toFixed(2)} mm from one another. Only a matrix that itself ends there, broken or of such an outline, with both scans trimmed along it, would show the same.`;

/** Why only one of two of one descent can be the copy: what was measured, and what it rests on. */
export function stepWords({ copyIs, largerPercent, sdPercent, mostPercent, material }: OnlyCopy): string {
  const larger = copyIs === 'subject' ? 'reference' : 'subject';
  const measured = `The ${larger} is larger by ${largerPercent.toFixed(2)} ± ${sdPercent.toFixed(2)} % (1 σ).`;
  if (mostPercent > 0)
    return `${measured} Were it the copy, it would be larger than its original by ${mostPercent.toFixed(2)} % at most, in plaster, of which alone casts grow: so the ${copyIs} would be the copy.`;
  return `${measured} Were it the copy, it would be smaller than its original, since ${materialWords[material ?? 'wax']} shrinks as it sets: so the ${copyIs} would be the copy, if the ${larger} is what it is stated to be.`;
}
