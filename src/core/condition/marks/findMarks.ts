import type { LossField } from '../relief/loss.ts';
import type { WearRelief } from '../relief/relief.ts';
import type { WearMap } from '../wear/labels.ts';
import { damageLines } from './damageLines.ts';
import { type FoundMark, fromLetter, fromLine, fromSharedLoss, fromSpot, fromStroke } from './foundMark.ts';
import { wouldShow } from './keptAsHigh.ts';
import { type RecutLetter, recutLetters } from './letters.ts';
import { lettersAnew } from './lettersAnew.ts';
import type { OwnFaces } from './lines/carrierSurface.ts';
import type { LineMark } from './lines/lines.ts';
import { markDefaults } from './markDefaults.ts';
import { numbered } from './marksWithin.ts';
import { spotMarks } from './spots.ts';
import { lowerStroke } from './strokes.ts';

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
  const allLines = damageLines(relief, loss, map, band, faces, senses, options);
  // A long line that crosses a letter raises it; a short one within a recut letter is part of it.
  const isLong = ({ chain }: LineMark): boolean => chain.lengthMm > options.longerThanLetters * relief.sizeMm;
  const nearLong = cellsNear(relief, allLines.filter(isLong));
  const anew = lettersAnew(relief, loss, band, nearLong);
  const letters = [...anew, ...recutLetters(relief, loss, band, withLetters(anew, nearLong))].filter((letter) =>
    wouldShow(relief, loss, letter),
  );
  const onLetters = new Set(letters.flatMap(({ cells }) => [...cells]));
  const lines = allLines.filter(
    (line) => isLong(line) || line.chain.cells.filter((i) => onLetters.has(i)).length < 0.4 * line.chain.cells.length,
  );
  const [strokes, ownLines] = parted(lines, (line) => lowerStroke(line, band, relief.sizeMm) !== null);
  const taken = cellsNear(relief, lines);
  for (const i of onLetters) taken[i] = 1;
  for (const cells of lostOnBoth) for (const i of cells) taken[i] = 1;
  const spots = spotMarks(relief, loss, map, taken, senses);
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
  return numbered(marks.sort((a, b) => b.volumeMm3 - a.volumeMm3));
}

/** `taken`, and the cells of letters found already. */
function withLetters(letters: readonly RecutLetter[], taken: Uint8Array): Uint8Array {
  const all = taken.slice();
  for (const { cells } of letters) for (const i of cells) all[i] = 1;
  return all;
}

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

function parted<T>(list: readonly T[], test: (one: T) => boolean): [T[], T[]] {
  return [list.filter(test), list.filter((one) => !test(one))];
}
