import {
  changeOf,
  type Material,
  mouldOfAnything,
  plaster,
  product,
  quotient,
  type Range,
  rangeOf,
  recastOverImpression,
  type SizedObject,
  sizeFromMatrix,
  wax,
} from './materials.ts';
import type { OnlyCopy, SizeTest } from './types.ts';

/** What the measured size speaks for, by the ranges of the materials' chain. */
export type SizeFavours = Pick<SizeTest, 'favours' | 'copyIs'>;

const undecided: SizeFavours = { favours: 'neither', copyIs: 'either' };

/**
 * Sizes of a descent without a copy between, and of a copy. A negative and a positive: the copy is a matrix recast from the
 * impression, directly or by way of a wax model. Two positives: one is a cast of the other by way of a mould. A side is
 * favoured only where its 95 % interval meets its own range and none of the other's.
 */
export function sizeFavours(
  size: Pick<SizeTest, 'ratio' | 'sd'>,
  reference: SizedObject,
  subject: SizedObject,
): SizeFavours {
  if (!decides(size, reference, subject)) return undecided;
  const direct = overlaps(size, directRange(reference, subject));
  const copies = copyRanges(reference, subject).filter(({ range }) => overlaps(size, range));
  if (direct && copies.length === 0) return { favours: 'direct', copyIs: 'either' };
  if (direct || copies.length === 0) return undecided;
  const which = new Set(copies.map(({ copyIs }) => copyIs));
  return { favours: 'copy', copyIs: which.size === 1 ? [...which][0] : 'either' };
}

/** Size decides nothing where the ratio's standard deviation is greater: one part in a hundred. */
export const mostRatioSd = 0.01;

/** Size decides only where both scans' scales were stated and the ratio is known to one part in a hundred. */
export const decides = ({ sd }: Pick<SizeTest, 'sd'>, reference: SizedObject, subject: SizedObject): boolean =>
  [reference, subject].every(({ scaleUncertaintyFrom }) => scaleUncertaintyFrom === 'stated') && sd <= mostRatioSd;

/**
 * Of two positives known to be of one descent, the only one that size lets be the copy: the other is larger, at 95 %, and were it
 * a copy it would have grown by more than its material does in the largest mould. Null where either may be the copy, or scales were not stated.
 */
export function onlyCopy(
  { ratio, sd }: Pick<SizeTest, 'ratio' | 'sd'>,
  reference: SizedObject,
  subject: SizedObject,
): OnlyCopy | null {
  if (reference.sense !== 'relief' || subject.sense !== 'relief' || !decides({ sd }, reference, subject)) return null;
  const ofReference = tooLargeForCopy(1 / ratio, sd / ratio ** 2, reference);
  if (ofReference) return { copyIs: 'subject', ...ofReference };
  const ofSubject = tooLargeForCopy(ratio, sd, subject);
  return ofSubject && { copyIs: 'reference', ...ofSubject };
}

/** What is stated of the material; an impression is of wax. Of anything else it is not known what it was cast in. */
const statedMaterial = ({ material, kind }: SizedObject): Material | null =>
  changeOf(material)?.name ?? (kind === 'impression' ? 'wax' : null);

/** A positive that is so many times as large as the other, where no copy in its material is: plaster, where nothing was stated. */
function tooLargeForCopy(times: number, sd: number, object: SizedObject): Omit<OnlyCopy, 'copyIs'> | null {
  const material = statedMaterial(object);
  const [, most] = product(mouldOfAnything, material ? rangeOf(material) : plaster);
  if (times - 1.96 * sd <= Math.max(1, most)) return null;
  return { largerPercent: 100 * (times - 1), sdPercent: 100 * sd, mostPercent: 100 * (most - 1), material };
}

/** Subject ÷ reference where neither descends from a copy. */
export const directRange = (reference: SizedObject, subject: SizedObject): Range =>
  quotient(sizeFromMatrix(subject).range, sizeFromMatrix(reference).range);

interface CopyRange {
  readonly range: Range;
  readonly copyIs: 'reference' | 'subject';
}

/** Subject ÷ reference where one of the two is a copy of the other, or made from it. */
export function copyRanges(reference: SizedObject, subject: SizedObject): CopyRange[] {
  const inverse = (range: Range): Range => quotient([1, 1], range);
  if (reference.sense !== subject.sense) {
    const ranges = [recastOverImpression.direct, recastOverImpression.throughWax];
    const copyIs = subject.sense === 'intaglio' ? ('subject' as const) : ('reference' as const);
    return ranges.map((range) => ({ range: copyIs === 'subject' ? range : inverse(range), copyIs }));
  }
  if (subject.sense === 'intaglio') return [];
  return [
    { range: castOverOriginal(subject), copyIs: 'subject' },
    { range: inverse(castOverOriginal(reference)), copyIs: 'reference' },
  ];
}

/** A positive cast from a mould of another positive, against that one. */
const castOverOriginal = ({ material, kind }: SizedObject): Range =>
  product(mouldOfAnything, changeOf(material)?.range ?? (kind === 'cast' ? plaster : wax));

export const overlaps = ({ ratio, sd }: Pick<SizeTest, 'ratio' | 'sd'>, [least, most]: Range): boolean =>
  ratio + 1.96 * sd >= least && ratio - 1.96 * sd <= most;
