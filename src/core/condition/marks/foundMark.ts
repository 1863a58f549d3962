import type { WearRelief } from '../relief/relief.ts';
import type { Mark } from '../types.ts';
import type { WearMap } from '../wear/labels.ts';
import type { RecutLetter } from './letters.ts';
import { lostAround } from './lines/lines.ts';
import type { LineSection } from './lines/lineTypes.ts';
import { isRaised, type MeasuredLine } from './lines/measuredLines.ts';
import { heightOverSurroundings, measureCells, middleOf } from './measureCells.ts';
import { markReadings, type Senses } from './readings.ts';
import { soundAlong, soundOnStretch } from './soundGround.ts';
import type { SpotMark } from './spots.ts';

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
  /** A line measured on both faces along its own way. */
  readonly matched?: boolean;
  /** A letter that no other of its legend equals (lettersAnew.ts). */
  readonly unequalled?: boolean;
}

export function fromLine(
  relief: WearRelief,
  map: WearMap,
  line: MeasuredLine & { readonly section: LineSection },
  senses: Senses,
): FoundMark {
  const { chain, carriedBy, measured, section } = line;
  const raised = isRaised(line);
  const shape = section.verdict === 'cannotTell' ? 'line' : section.verdict;
  const otherIsSound =
    carriedBy === 'both' ||
    line.matched === true ||
    (soundOnStretch(relief, map, chain) && !(raised && carriedBy === 'subject' && lostAround(relief, chain)));
  const mark = finish(relief, { shape, carriedBy, raised, otherIsSound }, measured, [chain.x, chain.y], senses);
  return { ...mark, section, ...(line.crosses && { crosses: true }), ...(line.matched && { matched: true }) };
}

/** A stroke of a letter that stands lower in a matrix is filled there; on an impression it is wear, and no mark. */
export function fromStroke(
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

export function fromLetter(
  relief: WearRelief,
  map: WearMap,
  { cells, carriedBy, unequalled }: RecutLetter,
  senses: Senses,
): FoundMark {
  const otherIsSound = carriedBy === 'subject' || unequalled === true || soundAlong(relief, map, Array.from(cells));
  const what = { shape: 'recut', carriedBy, raised: true, otherIsSound } as const;
  const mark = finish(relief, what, measureCells(relief, cells), middleOf(relief, cells), senses);
  return { ...mark, ...(unequalled && { unequalled }) };
}

export function fromSpot(
  relief: WearRelief,
  map: WearMap,
  { cells, carriedBy, shape, departureMm }: SpotMark,
  senses: Senses,
): FoundMark {
  const raised = departureMm > 0;
  const otherIsSound =
    soundAlong(relief, map, Array.from(cells)) &&
    !(shape === 'region' && raised && carriedBy === 'subject' && lostAround(relief, { cells, ux: 1, uy: 0 }));
  return finish(
    relief,
    { shape, carriedBy, raised, otherIsSound },
    measureCells(relief, cells),
    middleOf(relief, cells),
    senses,
  );
}

/** One entry for what both lack; its depth is the reference's. */
export function fromSharedLoss(relief: WearRelief, cells: Int32Array, senses: Senses): FoundMark {
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
