import { componentsOf, distanceTransform, median, quantile } from '../../geometry/index.ts';
import type { LossField } from '../relief/loss.ts';
import type { WearRelief } from '../relief/relief.ts';
import { ringAround } from '../relief/ringAround.ts';
import { type WearMap, wearLabel } from '../wear/labels.ts';
import type { Senses } from './readings.ts';

/** A compact mark: a pit, chip, bubble or smear. Heights in the positive's sense, mm. */
export interface SpotMark {
  readonly cells: Int32Array;
  readonly carriedBy: 'reference' | 'subject';
  readonly shape: 'pit' | 'chip' | 'bubble' | 'smear' | 'region';
  /** How far the carrier's surface departs from its own surroundings: positive raised. */
  readonly departureMm: number;
}

export const spotDefaults = {
  leastAreaMm2: 0.5,
  leastCells: 6,
  /** Difference that 90 % of the spot exceeds in size, at least: mm, and standard deviations. */
  leastMm: 0.12,
  /** The same at the rim, which wears and bends more than a chip there is shallow. */
  leastAtRimMm: 0.25,
  leastSigma: 5,
  /** Distance of the surroundings that the spot is held against, mm. */
  aroundMm: 0.7,
  /** The carrier departs at least this many times as far as the other face. */
  over: 1.6,
  /** A spot of which more than this share lies within two cells of missing data is the edge of a break. */
  mostBesideGaps: 0.35,
  /** What stands up and reaches no farther in than this, mm, is the rim, which differs on every impression. */
  rimMm: 1,
  /** Larger than this it is a region, mm². */
  regionMm2: 40,
};

/**
 * Compact marks: cells labelled lost or added that hang together. Which face carries one shows in which of them departs
 * from the surface around: a pit in the wax leaves the matrix smooth there.
 */
export function spotMarks(
  relief: WearRelief,
  loss: LossField,
  map: WearMap,
  taken: Uint8Array,
  senses: Senses,
  options = spotDefaults,
): SpotMark[] {
  const { reference, difference: d } = relief;
  const area = reference.pitch ** 2;
  // Where a wall stands all round, what is left of it on one side is a strip along its foot.
  const walled = relief.image !== relief.inside;
  const fromEdge = walled ? distanceTransform(relief.image, reference.width) : relief.fromEdge;
  const found: SpotMark[] = [];
  for (const state of ['lost', 'added'] as const) {
    const label = wearLabel(state);
    const chosen = map.labels.map((value, i) => (value === label && !Number.isNaN(d[i]) && !taken[i] ? 1 : 0));
    for (const cells of componentsOf(chosen, reference.width)) {
      if (cells.length < options.leastCells || cells.length * area < options.leastAreaMm2) continue;
      const size = Float32Array.from(cells, (i) => Math.abs(d[i]));
      const sigma = median(Float32Array.from(cells, (i) => loss.sigma[i]));
      const least = isAtRim(relief, cells) ? options.leastAtRimMm : options.leastMm;
      if (quantile(size, 0.75) < Math.max(least, options.leastSigma * sigma)) continue;
      if ((walled || state === 'added') && reachesIn(fromEdge, cells) * reference.pitch < options.rimMm) continue;
      if (besideGaps(relief, cells) > options.mostBesideGaps * cells.length) continue;
      const carried = carrierOf(relief, cells, state, options);
      if (!carried) continue;
      const shape = shapeOf(relief, cells, carried, senses, options);
      found.push({ cells, carriedBy: carried.carriedBy, shape, departureMm: carried.departureMm });
    }
  }
  return found;
}

/** How far in from an edge a spot reaches, a tenth of its cells left out, cells. */
const reachesIn = (fromEdge: Float32Array, cells: Int32Array): number =>
  quantile(
    Float32Array.from(cells, (i) => fromEdge[i]),
    0.9,
  );

/** Which of the two departs from the surface around, and by how much, mm; null where neither alone does. */
function carrierOf(
  relief: WearRelief,
  cells: Int32Array,
  state: 'lost' | 'added',
  options: typeof spotDefaults,
): Pick<SpotMark, 'carriedBy' | 'departureMm'> | null {
  const { reference, subject } = relief;
  const ring = ringAround(relief, cells, options.aroundMm);
  if (ring.length < 6) return null;
  const departure = (z: Float32Array): number =>
    median(Float32Array.from(cells, (i) => z[i])) - median(Float32Array.from(ring, (i) => z[i]));
  const onReference = departure(reference.z);
  const onSubject = departure(subject.z);
  const sign = state === 'added' ? 1 : -1;
  if (sign * onSubject > 0 && Math.abs(onSubject) > options.over * Math.abs(onReference))
    return { carriedBy: 'subject', departureMm: onSubject };
  if (sign * onReference < 0 && Math.abs(onReference) > options.over * Math.abs(onSubject))
    return { carriedBy: 'reference', departureMm: onReference };
  return null;
}

/** Cells within two cells of a place where a face has no data. */
function besideGaps({ reference, subject }: WearRelief, cells: Int32Array): number {
  const { width } = reference;
  const gap = (i: number): boolean => !(reference.mask[i] && subject.mask[i]);
  return cells.reduce((count, i) => {
    for (let dy = -2; dy <= 2; dy++) for (let dx = -2; dx <= 2; dx++) if (gap(i + dy * width + dx)) return count + 1;
    return count;
  }, 0);
}

/** Whether a spot comes within 0.8 mm of the edge of what is judged. */
function isAtRim({ reference, inside }: WearRelief, cells: Int32Array): boolean {
  const { width, pitch } = reference;
  const reach = Math.max(2, Math.round(0.8 / pitch));
  return cells.some(
    (i) => !(inside[i - reach] && inside[i + reach] && inside[i - reach * width] && inside[i + reach * width]),
  );
}

/**
 * What it is on the object that carries it. What is raised is a pit in a matrix, what is sunk stands in it. On what was pressed or cast:
 * round and small, a pit or a bubble; at the rim or ragged, a chip or a smear.
 */
function shapeOf(
  relief: WearRelief,
  cells: Int32Array,
  { carriedBy, departureMm }: Pick<SpotMark, 'carriedBy' | 'departureMm'>,
  { referenceSense, subjectSense }: Senses,
  options: typeof spotDefaults,
): SpotMark['shape'] {
  const area = cells.length * relief.reference.pitch ** 2;
  if (area > options.regionMm2) return 'region';
  const raised = departureMm > 0;
  const sense = carriedBy === 'reference' ? referenceSense : subjectSense;
  if (sense === 'intaglio') return raised ? 'pit' : 'smear';
  const round = isRound(relief, cells);
  if (raised) return round && area < 5 ? 'bubble' : 'smear';
  return round && !isAtRim(relief, cells) && area < 6 ? 'pit' : 'chip';
}

/** Whether it fills more than 0.55 of the disc about its middle. */
function isRound({ reference: { width } }: WearRelief, cells: Int32Array): boolean {
  const column = (i: number): number => i % width;
  const row = (i: number): number => Math.floor(i / width);
  const x = cells.reduce((sum, i) => sum + column(i), 0) / cells.length;
  const y = cells.reduce((sum, i) => sum + row(i), 0) / cells.length;
  const farthest = Math.max(...Array.from(cells, (i) => Math.hypot(column(i) - x, row(i) - y)));
  return cells.length / (Math.PI * (farthest + 0.5) ** 2) > 0.55;
}
