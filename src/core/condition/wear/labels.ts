import { componentsOf, type HeightGrid, quantile } from '../../geometry/index.ts';
import type { LossField } from '../relief/loss.ts';
import { sampled } from '../relief/parts.ts';
import type { WearRelief } from '../relief/relief.ts';
import type { WearState } from '../types.ts';

/** Labels of a wear map: label k stands for wearStates[k − 1]; 0 is outside the face. */
export const wearStates = [
  'sharp',
  'lower',
  'clogged',
  'lost',
  'added',
  'blurred',
  'cannotJudge',
] as const satisfies readonly WearState[];

export const wearLabel = (state: WearState): number => wearStates.indexOf(state) + 1;

/** What happened to each cell of the reference's face, in the impression's sense. */
export interface WearMap {
  readonly width: number;
  readonly height: number;
  /** mm. */
  readonly pitch: number;
  readonly left: number;
  readonly top: number;
  /** True where the reference is a negative: x then runs against its face frame's. */
  readonly turned: boolean;
  readonly labels: Uint8Array;
}

export const labelDefaults = {
  /** A cell may be lost from this probability that it lacks height. */
  probability: 0.45,
  /** … and is lower where so much less height is expected, mm. */
  lowerMm: 0.02,
  /** Missing area at the rim from which it is called lost, mm². */
  leastLostMm2: 2,
  /** Standard deviations, and mm, by which a cell must stand out to be added or lost. */
  standsOut: 4,
  leastMm: 0.08,
  /** Cells beside an edge of the data where the wall of a break is still in view. */
  breakCells: 2,
  /** What stands no higher over its surroundings than this share of the design shows a mark all the same where it is lower. */
  lowGround: 0.15,
};

const [sharp, lower, clogged, lost, added, , cannotJudge] = wearStates.map((_, k) => k + 1);

/**
 * Labels every cell of the reference's face.
 *
 * Outside the image of one of the two: cannot judge. No surface: lost where the gap reaches the rim, else cannot judge. Stands clearly higher: clogged where the excess
 * follows narrow hollows of the matrix, else added. Lacks height: lost where the subject lies below the ground, or the cell stood no higher than it; lower where its own
 * difference and its neighbourhood make a lack expected.
 */
export function wearLabels(relief: WearRelief, loss: LossField, options = labelDefaults): WearMap {
  const { reference, subject, inside, image } = relief;
  const labels = new Uint8Array(reference.z.length);
  for (let i = 0; i < labels.length; i++)
    if (inside[i]) labels[i] = reference.mask[i] && subject.mask[i] ? sharp : cannotJudge;
  labelMissing(relief, labels, options);
  labelExcess(relief, loss, labels, options);
  labelLacking(relief, loss, labels, options);
  for (let i = 0; i < labels.length; i++)
    if (labels[i] && !image[i] && reference.mask[i] && subject.mask[i]) labels[i] = cannotJudge;
  const { width, height, pitch, left, top } = reference;
  return { width, height, pitch, left, top, turned: relief.turned, labels };
}

/**
 * The map with the cells of marks that the reference alone carries left unjudged: what a later cut of the matrix hides there is
 * no loss of the subject. `marks`: cells of each.
 */
export function withoutMarks(map: WearMap, marks: Iterable<Iterable<number>>): WearMap {
  const labels = map.labels.slice();
  for (const cells of marks) for (const i of cells) if (labels[i] && labels[i] !== lost) labels[i] = cannotJudge;
  return { ...map, labels };
}

/** The map without labels elsewhere than on the cells. */
export const withinCells = (map: WearMap, cells: Uint8Array): WearMap => ({
  ...map,
  labels: map.labels.map((label, i) => (cells[i] ? label : 0)),
});

/** The map as marks and states are held against it: low ground that lacks a little is sound, since it hides no mark. */
export function groundOfMarks(
  relief: WearRelief,
  { exposure }: LossField,
  map: WearMap,
  { lowGround } = labelDefaults,
): WearMap {
  const least = lowGround * typicalOf(exposure, relief);
  return { ...map, labels: map.labels.map((label, i) => (label === lower && exposure[i] < least ? sharp : label)) };
}

/** Gaps in the subject that reach the rim are losses; holes within it may be the scanner's. */
function labelMissing(
  { reference, subject, inside }: WearRelief,
  labels: Uint8Array,
  { leastLostMm2 }: typeof labelDefaults,
): void {
  const { width, pitch } = reference;
  const missing = labels.map((_, i) => (inside[i] && reference.mask[i] && !subject.mask[i] ? 1 : 0));
  for (const cells of componentsOf(missing, width)) {
    if (cells.length * pitch * pitch < leastLostMm2) continue;
    if (cells.some((i) => !(inside[i - 1] && inside[i + 1] && inside[i - width] && inside[i + width])))
      for (const i of cells) labels[i] = lost;
  }
}

function labelLacking(relief: WearRelief, loss: LossField, labels: Uint8Array, options: typeof labelDefaults): void {
  const lacking = labels.map((label, i) => (label === sharp && loss.probability[i] > options.probability ? 1 : 0));
  const deep = deepCells(relief, loss, lacking, labels, options);
  for (let i = 0; i < labels.length; i++) {
    if (labels[i] !== sharp) continue;
    if (deep[i]) labels[i] = lost;
    else if (loss.expected[i] < -options.lowerMm) labels[i] = lower;
  }
}

/** Height that 95 % of the image's cells stay under on the reference. */
export const typicalOf = (height: Float32Array, { reference, image }: WearRelief): number =>
  quantile(
    sampled(height, (i) => image[i] === 1 && reference.mask[i] === 1),
    0.95,
  );

/** Lacking cells that no rubbing explains, grown by two cells within what lacks clearly. */
function deepCells(
  relief: WearRelief,
  { sigma, height }: LossField,
  lacking: Uint8Array,
  labels: Uint8Array,
  options: typeof labelDefaults,
): Uint8Array {
  const { reference, subject, difference: d } = relief;
  const { width } = reference;
  const clear = (i: number): boolean =>
    lacking[i] === 1 && d[i] < -Math.max(options.leastMm, options.standsOut * sigma[i]);
  const typical = typicalOf(height, relief);
  let deep = labels.map((_, i) => {
    if (!clear(i)) return 0;
    const low = height[i] < 0.1 * typical;
    const below = height[i] + d[i] < -Math.max(options.leastMm, options.standsOut * sigma[i]);
    return low || below || besideGap(subject, i, options.breakCells) ? 1 : 0;
  });
  for (let round = 0; round < 2; round++) {
    const grown = deep.slice();
    for (let i = width; i < deep.length - width; i++)
      if (!deep[i] && clear(i) && deep[i - 1] + deep[i + 1] + deep[i - width] + deep[i + width] > 0) grown[i] = 1;
    deep = grown;
  }
  return deep;
}

function besideGap({ mask, width }: HeightGrid, i: number, reach: number): boolean {
  for (let dy = -reach; dy <= reach; dy++)
    for (let dx = -reach; dx <= reach; dx++) if (mask[i + dy * width + dx] === 0) return true;
  return false;
}

/**
 * Excess: connected cells clearly above the reference. Where most of it lies in hollows of the matrix that are narrower
 * than about 2 mm and follows their depth, the matrix is filled there today: clogged.
 */
function labelExcess(relief: WearRelief, loss: LossField, labels: Uint8Array, options: typeof labelDefaults): void {
  const { difference: d, reference } = relief;
  const excess = labels.map((label, i) =>
    label === sharp && d[i] > Math.max(options.leastMm, options.standsOut * loss.sigma[i]) ? 1 : 0,
  );
  const fine = relief.narrow.reference;
  for (const cells of componentsOf(excess, reference.width)) {
    if (cells.length < 4) continue;
    // The subject shows what the hollow was; the reference today shows less.
    const subjectFine = cells.reduce((sum, i) => sum + fine[i] + d[i], 0);
    const referenceFine = cells.reduce((sum, i) => sum + fine[i], 0);
    const follows = referenceFine > 0.15 * subjectFine;
    for (const i of cells) labels[i] = follows ? clogged : added;
  }
}
