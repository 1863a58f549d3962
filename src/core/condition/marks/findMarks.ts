import type { LossField } from '../relief/loss.ts';
import type { WearRelief } from '../relief/relief.ts';
import type { Mark } from '../types.ts';
import type { WearMap } from '../wear/labels.ts';
import { type RecutLetter, recutLetters } from './letters.ts';
import { lettersAnew } from './lettersAnew.ts';
import { alongRing } from './lines/alongRing.ts';
import { carrierSurfaces, type OwnFaces } from './lines/carrierSurface.ts';
import { crossingLines, liesOn, runningAcross } from './lines/crossingLines.ts';
import { faintLines } from './lines/faintLines.ts';
import { differenceChains, differenceLines, type LineMark, narrowForms } from './lines/lines.ts';
import type { LineSection } from './lines/lineTypes.ts';
import { isRaised, isStraight, type MeasuredLine, measureOf, sectionOf } from './lines/measuredLines.ts';
import { heightOverSurroundings, measureCells, middleOf } from './measureCells.ts';
import { markReadings } from './readings.ts';
import { soundAlong, soundOnStretch } from './soundGround.ts';
import { type SpotMark, spotMarks } from './spots.ts';
import { lowerStroke } from './strokes.ts';

/** A mark and whether the other face could have shown it. */
export interface FoundMark extends Mark {
  /** Filled, unworn and scanned on the face that lacks it; true where both carry it. */
  readonly otherIsSound: boolean;
  /** Greatest extent, mm. */
  readonly lengthMm: number;
  /** Raised on the face that carries it, in the positive's sense. */
  readonly raised: boolean;
  /** A line that runs through the design as no stroke of it does. */
  readonly crosses?: boolean;
  /** A line that shows over its length and in no single cell. */
  readonly faint?: boolean;
}

export const markDefaults = {
  /** A line narrower than this may wander as a crack does. */
  crackWidthMm: 0.5,
  /** One as wide as a cut that wanders by this share is neither: a form of the design worn on one of the two. */
  mostStrayOfCut: 0.045,
  /** A line is at least so many times as long as wide; shorter marks are spots. */
  longerThanWide: 2.5,
  leastLineMm2: 0.4,
  /** … and at least so many cells: one vertex thrown out spreads over four or five. */
  leastLineCells: 6,
  /** … and where it is not sound, a line of the reference is read only when longer than this share of the size. */
  longOnWorn: 0.25,
  /** Lines longer than this share of the size are longer than letters are. */
  longerThanLetters: 0.12,
  /** A line of the reference is told from the seal's design only where the subject has surface along this share of it. */
  leastSeen: 0.5,
  /** Largest pit of the matrix that is told from wear, mm². */
  mostPitMm2: 8,
};

/**
 * Marks of damage on either face, in the order of their size. Lines: those that one face has and the other lacks,
 * and those that both carry across the design, which show in no difference. Spots: compact losses and additions.
 * A line is a cut, crack or scratch as its section tells, on the finest surface at hand. `band`: cells of the legend. Outlines in the
 * reference's face frame; places in the impression's sense. `lostOnBoth`: cells of the losses that two positives share.
 */
export function findMarks(
  relief: WearRelief,
  loss: LossField,
  map: WearMap,
  band: Uint8Array,
  faces: OwnFaces,
  lostOnBoth: readonly Int32Array[] = [],
  options = markDefaults,
): FoundMark[] {
  const senses = { referenceSense: faces.reference.sense, subjectSense: faces.subject.sense };
  const allLines = linesOn(relief, loss, map, band, faces, senses, options);
  // A long line that crosses a letter raises it; a short one within a recut letter is part of it.
  const isLong = ({ chain }: LineMark): boolean => chain.lengthMm > options.longerThanLetters * relief.sizeMm;
  const nearLong = cellsNear(relief, allLines.filter(isLong));
  const anew = lettersAnew(relief, loss, band, nearLong);
  const letters = [...anew, ...recutLetters(relief, loss, band, withLetters(anew, nearLong))];
  const onLetters = new Set(letters.flatMap(({ cells }) => [...cells]));
  const lines = allLines.filter(
    (line) => isLong(line) || line.chain.cells.filter((i) => onLetters.has(i)).length < 0.4 * line.chain.cells.length,
  );
  const [strokes, ownLines] = parted(lines, (line) => lowerStroke(line, band, relief.sizeMm) !== null);
  const taken = cellsNear(relief, lines);
  for (const i of onLetters) taken[i] = 1;
  for (const cells of lostOnBoth) for (const i of cells) taken[i] = 1;
  const spots = spotMarks(relief, loss, map, taken);
  const marks = [
    ...strokes.flatMap((line) => fromStroke(relief, line, lowerStroke(line, band, relief.sizeMm), senses)),
    ...ownLines.map((line) => fromLine(relief, map, line, senses)),
    ...lostOnBoth.map((cells) => fromSharedLoss(relief, cells, senses)),
    ...letters.map((letter) => fromLetter(relief, map, letter, senses)),
    ...spots
      .map((spot) => fromSpot(relief, map, spot, senses))
      // What the reference alone raises is a pit of the matrix only where the subject would show it; elsewhere it is wear.
      .filter(
        (mark) =>
          mark.carriedBy !== 'reference' || !mark.raised || (mark.otherIsSound && mark.areaMm2 < options.mostPitMm2),
      ),
  ];
  marks.sort((a, b) => b.volumeMm3 - a.volumeMm3);
  return marks.map((mark, k) => ({ ...mark, id: `M${k + 1}` }));
}

/**
 * Lines of damage, measured, each with its section: of the difference, those too faint for its single cells, and those that both faces carry across the
 * legend. What is like no cut, crack or scratch is left out, but for strokes of the legend that stand lower.
 */
function linesOn(
  relief: WearRelief,
  loss: LossField,
  map: WearMap,
  band: Uint8Array,
  faces: OwnFaces,
  senses: Senses,
  options: typeof markDefaults,
) {
  const narrow = narrowForms(relief);
  const crests = differenceChains(relief, loss);
  const inCells = differenceLines(relief, loss, narrow, undefined, crests);
  const weighed = faintLines(relief, loss, map, narrow);
  const runsAcross = weighed.length > 0 ? runningAcross(relief, band) : () => false;
  const faint = weighed.map((line) => (runsAcross(line.chain) ? { ...line, crosses: true } : line));
  const liesOnAny = (line: LineMark, others: readonly LineMark[]): boolean =>
    others.some((other) => other.carriedBy === line.carriedBy && liesOn(relief.reference, other, line));
  // What runs across on the subject by the stricter rule does so where single cells show it, too.
  const across = faint.filter((line) => line.crosses && line.carriedBy === 'subject');
  const plain = inCells.map((line) => (liesOnAny(line, across) ? { ...line, crosses: true } : line));
  const ofDifference = [
    ...plain,
    ...faint.filter((line) => !plain.some((other) => liesOn(relief.reference, line, other))),
  ];
  const surfaces = carrierSurfaces(relief, faces);
  // What is like no mark does not take the place of the lines it lies on.
  const crossing = crossingLines(relief, loss, ofDifference, band, undefined, crests).filter(
    (line) => sectionOf(relief, { ...line, measured: measureOf(relief, line) }, surfaces).fits,
  );
  const single = ofDifference.filter((line) => !crossing.some((other) => liesOn(relief.reference, line, other)));
  return (
    [...single, ...crossing]
      .filter(
        (line) =>
          line.carriedBy !== 'reference' ||
          (line.crosses && !line.faint) ||
          seenShare(relief, line) >= options.leastSeen,
      )
      .filter((line) => line.crosses || !alongRing(relief, line))
      .map((line) => ({ ...line, measured: measureOf(relief, line) }))
      .filter(
        (line) =>
          line.measured.lengthMm >= options.longerThanWide * line.measured.widthMm &&
          line.measured.areaMm2 >= options.leastLineMm2 &&
          line.chain.lengthMm >= options.leastLineCells * relief.reference.pitch &&
          (line.measured.widthMm < options.crackWidthMm || isStraight(relief, line, surfaces, options.mostStrayOfCut)),
      )
      .map((line) => ({ ...line, section: sectionOf(relief, line, surfaces) }))
      // A line that is like no cut, crack or scratch, or of which no section can be taken, is a form of the design, worn or out of place. It takes no ground from letters and spots.
      .filter(
        (line) =>
          lowerStroke(line, band, relief.sizeMm) !== null ||
          (line.section.fits &&
            !isStrokeOfReference(fromLine(relief, map, line, senses), relief.sizeMm, senses, options)),
      )
  );
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

/** `taken`, and the cells of letters found already. */
function withLetters(letters: readonly RecutLetter[], taken: Uint8Array): Uint8Array {
  const all = taken.slice();
  for (const { cells } of letters) for (const i of cells) all[i] = 1;
  return all;
}

type Senses = Pick<Parameters<typeof markReadings>[0], 'referenceSense' | 'subjectSense'>;

/** Cells within a millimetre of a line: what lies there belongs to it. */
function cellsNear({ reference }: WearRelief, lines: readonly LineMark[]): Uint8Array {
  const near = new Uint8Array(reference.z.length);
  const reach = Math.max(1, Math.round(1 / reference.pitch));
  for (const { chain } of lines)
    for (const i of chain.cells)
      for (let dy = -reach; dy <= reach; dy++)
        for (let dx = -reach; dx <= reach; dx++) near[i + dy * reference.width + dx] = 1;
  return near;
}

function fromLine(
  relief: WearRelief,
  map: WearMap,
  line: MeasuredLine & { readonly section: LineSection },
  senses: Senses,
): FoundMark {
  const { chain, carriedBy, measured, section } = line;
  const raised = isRaised(line);
  const shape = section.verdict === 'cannotTell' ? 'line' : section.verdict;
  const otherIsSound = carriedBy === 'both' || soundOnStretch(relief, map, chain);
  const mark = finish(relief, { shape, carriedBy, raised, otherIsSound }, measured, [chain.x, chain.y], senses);
  return { ...mark, section, ...(line.crosses && { crosses: true }), ...(line.faint && { faint: true }) };
}

/** A stroke of a letter that stands lower in a matrix is filled there; on an impression it is wear, and no mark. */
function fromStroke(
  relief: WearRelief,
  { chain, measured }: MeasuredLine,
  lower: 'reference' | 'subject' | null,
  senses: Senses,
): FoundMark[] {
  const sense = lower === 'reference' ? senses.referenceSense : senses.subjectSense;
  if (lower === null || sense !== 'intaglio') return [];
  const what = { shape: 'smear', carriedBy: lower, raised: false, otherIsSound: true } as const;
  return [finish(relief, what, measured, [chain.x, chain.y], senses)];
}

function parted<T>(list: readonly T[], test: (one: T) => boolean): [T[], T[]] {
  return [list.filter(test), list.filter((one) => !test(one))];
}

function fromLetter(relief: WearRelief, map: WearMap, { cells, carriedBy }: RecutLetter, senses: Senses): FoundMark {
  const otherIsSound = carriedBy === 'subject' || soundAlong(relief, map, Array.from(cells));
  return finish(
    relief,
    { shape: 'recut', carriedBy, raised: true, otherIsSound },
    measureCells(relief, cells),
    middleOf(relief, cells),
    senses,
  );
}

function fromSpot(
  relief: WearRelief,
  map: WearMap,
  { cells, carriedBy, shape, departureMm }: SpotMark,
  senses: Senses,
): FoundMark {
  const otherIsSound = soundAlong(relief, map, Array.from(cells));
  return finish(
    relief,
    { shape, carriedBy, raised: departureMm > 0, otherIsSound },
    measureCells(relief, cells),
    middleOf(relief, cells),
    senses,
  );
}

/** One entry for what both lack; its depth is the reference's. */
function fromSharedLoss(relief: WearRelief, cells: Int32Array, senses: Senses): FoundMark {
  const what = { shape: 'chip', carriedBy: 'both', raised: false, otherIsSound: true } as const;
  const depths = heightOverSurroundings(relief, cells);
  return finish(relief, what, measureCells(relief, cells, depths), middleOf(relief, cells), senses);
}

function finish(
  relief: WearRelief,
  what: Pick<FoundMark, 'shape' | 'carriedBy' | 'raised' | 'otherIsSound'>,
  measured: Pick<FoundMark, 'outline' | 'areaMm2' | 'depthMm' | 'volumeMm3' | 'lengthMm'>,
  [x, y]: readonly [number, number],
  senses: Senses,
): FoundMark {
  const onSubject = what.carriedBy === 'reference' ? 'absent' : what.raised ? 'raised' : 'sunk';
  const { areaMm2, depthMm, volumeMm3, lengthMm } = measured;
  return {
    id: '',
    ...what,
    onSubject,
    at: placeOf(x, y),
    areaMm2,
    depthMm,
    volumeMm3,
    lengthMm,
    readings: markReadings({ ...what, onSubject, ...senses }),
    outline: relief.turned ? measured.outline.map((value, k) => (k % 2 === 0 ? -value : value)) : measured.outline,
  };
}

/** Clockwise from the top as the impression shows it, the clock hour beside, and the distance from the centre. */
export function placeOf(x: number, y: number): Mark['at'] {
  const deg = ((Math.atan2(x, y) * 180) / Math.PI + 360) % 360;
  const hour = Math.round(deg / 30) % 12 || 12;
  return { deg, hour, radiusMm: Math.hypot(x, y) };
}
