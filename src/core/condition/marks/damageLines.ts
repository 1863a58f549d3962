import type { LossField } from '../relief/loss.ts';
import type { WearRelief } from '../relief/relief.ts';
import type { WearMap } from '../wear/labels.ts';
import { type FoundMark, fromLine } from './foundMark.ts';
import { alongRing } from './lines/alongRing.ts';
import { carrierSurfaces, type OwnFaces } from './lines/carrierSurface.ts';
import { crossingLines, liesOn, runningAcross } from './lines/crossingLines.ts';
import { lineDefaults } from './lines/lineField.ts';
import { differenceChains, differenceLines, type LineMark, narrowForms } from './lines/lines.ts';
import type { LineSection } from './lines/lineTypes.ts';
import {
  type DifferenceCrests,
  differenceCrests,
  matchedDefaults,
  matchedLines,
  measuredOnBoth,
} from './lines/matchedLines.ts';
import { isRaised, isStraight, type MeasuredLine, measureOf, sectionOf } from './lines/measuredLines.ts';
import type { markDefaults } from './markDefaults.ts';
import type { Senses } from './readings.ts';
import { lowerStroke } from './strokes.ts';

/**
 * Lines of damage, measured, each with its section: of the difference, in single cells or against its parallels, and those that both faces carry across the
 * legend. What is like no cut, crack or scratch is left out, but for strokes of the legend that stand lower.
 */
export function damageLines(
  relief: WearRelief,
  loss: LossField,
  map: WearMap,
  band: Uint8Array,
  faces: OwnFaces,
  senses: Senses,
  options: typeof markDefaults,
) {
  const surfaces = carrierSurfaces(relief, faces);
  const isPlaced = (line: LineMark): boolean =>
    (line.carriedBy !== 'reference' || line.crosses || line.matched || seenShare(relief, line) >= options.leastSeen) &&
    (line.crosses || !alongRing(relief, line));
  const isLong = ({ matched, measured, chain }: MeasuredLine): boolean =>
    matched === true ||
    (measured.lengthMm >= options.longerThanWide * measured.widthMm &&
      measured.areaMm2 >= options.leastLineMm2 &&
      chain.lengthMm >= options.leastLineCells * relief.reference.pitch);
  const isLine = (line: MeasuredLine): boolean =>
    isLong(line) &&
    (line.measured.widthMm < options.crackWidthMm || isStraight(relief, line, surfaces, options.mostStrayOfCut));
  // A line that is like no cut, crack or scratch, or of which no section can be taken, is a form of the design, worn or out of place. It takes no ground from letters and spots.
  const isOfDamage = (line: Sectioned): boolean =>
    lowerStroke(line, band, relief.sizeMm) !== null ||
    (line.section.fits &&
      (line.matched || !isStrokeOfReference(fromLine(relief, map, line, senses), relief.sizeMm, senses, options)));
  return allLines(relief, loss, band, surfaces)
    .filter(isPlaced)
    .map((line) => ({ ...line, measured: measureOf(relief, line) }))
    .filter(isLine)
    .map((line) => ({ ...line, section: sectionOf(relief, line, surfaces) }))
    .filter(isOfDamage);
}

type Sectioned = MeasuredLine & { readonly section: LineSection };

/** Lines of the difference and those that both faces carry across the legend; each once. */
function allLines(
  relief: WearRelief,
  loss: LossField,
  band: Uint8Array,
  surfaces: ReturnType<typeof carrierSurfaces>,
): LineMark[] {
  const crests = differenceChains(relief, loss);
  const ofDifference = differenceAndMatched(relief, loss, band, crests);
  // What is like no mark does not take the place of the lines it lies on.
  const crossing = crossingLines(relief, loss, ofDifference, band, undefined, crests).filter(
    (line) => sectionOf(relief, { ...line, measured: measureOf(relief, line) }, surfaces).fits,
  );
  const single = ofDifference.filter((line) => !crossing.some((other) => liesOn(relief.reference, line, other)));
  return [...single, ...crossing];
}

/** Share of a line measured along its own way from which a line in single cells is the whole of it. */
const aboutAsLong = 0.5;

/** Lines that single cells of the difference show, and those measured on both faces along their own way; each once. */
function differenceAndMatched(
  relief: WearRelief,
  loss: LossField,
  band: Uint8Array,
  crests: ReturnType<typeof differenceChains>,
): LineMark[] {
  const narrow = narrowForms(relief);
  const runsAcross = runningAcross(relief, band);
  const near = differenceCrests(relief);
  const matched = matchedLines(relief, loss, narrow, near).map((line) =>
    runsAcross(line.chain) ? { ...line, crosses: true } : line,
  );
  const liesOnOne = (line: LineMark, of: readonly LineMark[]) =>
    of.find((other) => liesOn(relief.reference, line, other));
  const inCells = differenceLines(relief, loss, narrow, undefined, crests).flatMap((line) => {
    const own = matched.find((other) => other.carriedBy === line.carriedBy && liesOn(relief.reference, line, other));
    if (!own) return isRaised(line) && isMeasured(relief, loss, line, narrow, near) ? { ...line, matched: true } : line;
    // What is a short piece of a line measured as a whole gives way to it.
    const isPiece = line.chain.lengthMm < aboutAsLong * own.chain.lengthMm;
    return isPiece ? [] : { ...line, matched: true, crosses: own.crosses };
  });
  return [...inCells, ...matched.filter((line) => !liesOnOne(line, inCells))];
}

/** Whether both faces bear a line of the difference out along its own way, against sides as far off as it was found against. */
const isMeasured = (
  relief: WearRelief,
  loss: LossField,
  { chain, carriedBy }: LineMark,
  narrow: ReturnType<typeof narrowForms>,
  near: DifferenceCrests,
): boolean =>
  measuredOnBoth(relief, loss, chain, carriedBy === 'subject' ? 1 : -1, narrow, near, {
    ...matchedDefaults,
    field: lineDefaults,
  }) !== null;

/**
 * A line that the reference raises and that may be a stroke of the design, not printed or rubbed away: one on worn ground, unless it is long; and on an
 * impression any that is no longer than letters are, since wax fails to fill single strokes on sound ground too.
 */
function isStrokeOfReference(
  { carriedBy, raised, otherIsSound, lengthMm }: FoundMark,
  sizeMm: number,
  { subjectSense }: Senses,
  options: typeof markDefaults,
): boolean {
  if (carriedBy !== 'reference' || !raised) return false;
  if (!otherIsSound && lengthMm <= options.longOnWorn * sizeMm) return true;
  return subjectSense === 'relief' && lengthMm <= options.longerThanLetters * sizeMm;
}

/** Share of a line along which the subject has surface. */
const seenShare = ({ subject }: WearRelief, { chain: { cells } }: LineMark): number =>
  cells.filter((i) => subject.mask[i]).length / Math.max(1, cells.length);
