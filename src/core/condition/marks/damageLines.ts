import type { LossField } from '../relief/loss.ts';
import type { WearRelief } from '../relief/relief.ts';
import type { WearMap } from '../wear/labels.ts';
import { type FoundMark, fromLine, type Senses } from './foundMark.ts';
import { alongRing } from './lines/alongRing.ts';
import { carrierSurfaces, type OwnFaces } from './lines/carrierSurface.ts';
import { crossingLines, liesOn, runningAcross } from './lines/crossingLines.ts';
import { faintLines } from './lines/faintLines.ts';
import { differenceChains, differenceLines, type LineMark, narrowForms } from './lines/lines.ts';
import type { LineSection } from './lines/lineTypes.ts';
import { isStraight, type MeasuredLine, measureOf, sectionOf } from './lines/measuredLines.ts';
import type { markDefaults } from './markDefaults.ts';
import { lowerStroke } from './strokes.ts';

/**
 * Lines of damage, measured, each with its section: of the difference, those too faint for its single cells, and those that both faces carry across the
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
    (line.carriedBy !== 'reference' || (line.crosses && !line.faint) || seenShare(relief, line) >= options.leastSeen) &&
    (line.crosses || !alongRing(relief, line));
  const isLine = (line: MeasuredLine): boolean =>
    line.measured.lengthMm >= options.longerThanWide * line.measured.widthMm &&
    line.measured.areaMm2 >= options.leastLineMm2 &&
    line.chain.lengthMm >= options.leastLineCells * relief.reference.pitch &&
    (line.measured.widthMm < options.crackWidthMm || isStraight(relief, line, surfaces, options.mostStrayOfCut));
  // A line that is like no cut, crack or scratch, or of which no section can be taken, is a form of the design, worn or out of place. It takes no ground from letters and spots.
  const isOfDamage = (line: Sectioned): boolean =>
    lowerStroke(line, band, relief.sizeMm) !== null ||
    (line.section.fits && !isStrokeOfReference(fromLine(relief, map, line, senses), relief.sizeMm, senses, options));
  return allLines(relief, loss, map, band, surfaces)
    .filter(isPlaced)
    .map((line) => ({ ...line, measured: measureOf(relief, line) }))
    .filter(isLine)
    .map((line) => ({ ...line, section: sectionOf(relief, line, surfaces) }))
    .filter(isOfDamage);
}

type Sectioned = MeasuredLine & { readonly section: LineSection };

/** Lines of the difference, in single cells or over their length, and those that both faces carry across the legend; each once. */
function allLines(
  relief: WearRelief,
  loss: LossField,
  map: WearMap,
  band: Uint8Array,
  surfaces: ReturnType<typeof carrierSurfaces>,
): LineMark[] {
  const crests = differenceChains(relief, loss);
  const ofDifference = differenceAndFaint(relief, loss, map, band, crests);
  // What is like no mark does not take the place of the lines it lies on.
  const crossing = crossingLines(relief, loss, ofDifference, band, undefined, crests).filter(
    (line) => sectionOf(relief, { ...line, measured: measureOf(relief, line) }, surfaces).fits,
  );
  const single = ofDifference.filter((line) => !crossing.some((other) => liesOn(relief.reference, line, other)));
  return [...single, ...crossing];
}

/** Lines that single cells of the difference show, then those that it shows over their length alone; which of them run across is said of both. */
function differenceAndFaint(
  relief: WearRelief,
  loss: LossField,
  map: WearMap,
  band: Uint8Array,
  crests: ReturnType<typeof differenceChains>,
): LineMark[] {
  const narrow = narrowForms(relief);
  const inCells = differenceLines(relief, loss, narrow, undefined, crests);
  const weighed = faintLines(relief, loss, map, narrow);
  const runsAcross = weighed.length > 0 ? runningAcross(relief, band) : () => false;
  const faint = weighed.map((line) => (runsAcross(line.chain) ? { ...line, crosses: true } : line));
  // What runs across on the subject by the stricter rule does so where single cells show it, too.
  const across = faint.filter((line) => line.crosses && line.carriedBy === 'subject');
  const liesOnOne = (line: LineMark): boolean =>
    across.some((other) => other.carriedBy === line.carriedBy && liesOn(relief.reference, other, line));
  const plain = inCells.map((line) => (liesOnOne(line) ? { ...line, crosses: true } : line));
  return [...plain, ...faint.filter((line) => !plain.some((other) => liesOn(relief.reference, line, other)))];
}

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
