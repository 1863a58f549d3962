import type { Sense } from '../../face/index.ts';
import {
  climb,
  gaussianFilter,
  gridOn,
  type HeightGrid,
  localHeight,
  withHeights,
  xOf,
  yOf,
} from '../../geometry/index.ts';
import {
  type BandShape,
  type BaseCurve,
  type CurvePlace,
  curveOf,
  type IdealShape,
  idealOutline,
} from './baseCurve.ts';
import { type ExplainedShare, explainedShares } from './parallelRelief.ts';
import { sidesMoved } from './sidesMoved.ts';

/** The relief prepared for the search: fine lines, the same blurred, and where there is detail at all. */
export interface BandRelief {
  /** Local height, clipped: border lines and strokes, about 1 where they stand out. */
  readonly fine: HeightGrid;
  readonly lines: HeightGrid;
  readonly middle: HeightGrid;
  readonly coarse: HeightGrid;
  /** The first two without what lies lower than ground: along the curves rings are looked for in these. */
  readonly raised: HeightGrid;
  readonly strokes: HeightGrid;
}

/**
 * Local heights are clipped, so that no cell speaks for many. Ground between strokes that cover a third of it lies at −0.7; what is
 * lower is, in wax, a bubble or the foot of the lip.
 */
const clipped = { highest: 2, lowest: -1.5, ground: -0.7 };

/** `detail`: heights in the impression's sense, form removed; `sense` of the object. */
export function bandRelief(detail: HeightGrid, sense: Sense): BandRelief {
  const k = Math.min(1, Math.max(0.4, meanDiameter(detail) / 26));
  const heights = localHeight(detail, { meanMm: 3 * k, sizeMm: 12 * k, floor: 0.5 });
  const fine = clippedAt(heights, clipped.lowest);
  const raised = sense === 'relief' ? clippedAt(heights, clipped.ground) : fine;
  const linesOf = (grid: HeightGrid): HeightGrid => standardised(thinned(gaussianFilter(grid, 0.8 * k), 0.2 * k));
  const lines = linesOf(fine);
  const strokes = raised === fine ? lines : linesOf(raised);
  const middle = standardised(thinned(gaussianFilter(fine, 1.6 * k), 0.3 * k));
  const coarse = standardised(thinned(gaussianFilter(withHeights(fine, fine.z.map(Math.abs)), 4 * k), 0.6 * k));
  return { fine, lines, middle, coarse, raised, strokes };
}

const clippedAt = (grid: HeightGrid, lowest: number): HeightGrid =>
  withHeights(
    grid,
    grid.z.map((z) => Math.min(clipped.highest, Math.max(lowest, z))),
  );

/** Diameter of the disc that is as large as what a grid holds, mm. */
function meanDiameter({ mask, pitch }: HeightGrid): number {
  let cells = 0;
  for (let i = 0; i < mask.length; i++) cells += mask[i];
  return pitch * Math.sqrt((4 * cells) / Math.PI);
}

/** Every k-th cell, about `pitchMm` apart: the relief is smooth on that scale already. */
function thinned(grid: HeightGrid, pitchMm: number): HeightGrid {
  const k = Math.max(1, Math.round(pitchMm / grid.pitch));
  if (k === 1) return grid;
  const width = Math.ceil(grid.width / k);
  const height = Math.ceil(grid.height / k);
  const z = new Float32Array(width * height);
  const mask = new Uint8Array(width * height);
  for (let r = 0; r < height; r++)
    for (let c = 0; c < width; c++) {
      z[r * width + c] = grid.z[r * k * grid.width + c * k];
      mask[r * width + c] = grid.mask[r * k * grid.width + c * k];
    }
  return gridOn({ ...grid, width, height, pitch: grid.pitch * k }, z, mask);
}

/** Cells with more detail round them than most, as x, y pairs, mm. */
export function detailedPlaces({ coarse }: BandRelief): Float64Array {
  const places: number[] = [];
  for (let i = 0; i < coarse.z.length; i++)
    if (coarse.mask[i] && coarse.z[i] > 0.4)
      places.push(xOf(coarse, i % coarse.width), yOf(coarse, Math.floor(i / coarse.width)));
  return Float64Array.from(places);
}

function standardised(grid: HeightGrid): HeightGrid {
  let sum = 0;
  let squares = 0;
  let count = 0;
  for (let i = 0; i < grid.z.length; i++)
    if (grid.mask[i]) {
      sum += grid.z[i];
      squares += grid.z[i] ** 2;
      count++;
    }
  const mean = sum / Math.max(1, count);
  const scale = 1 / Math.sqrt(Math.max(1e-12, squares / Math.max(1, count) - mean * mean));
  const z = new Float32Array(grid.z.length);
  for (let i = 0; i < z.length; i++) if (grid.mask[i]) z[i] = (grid.z[i] - mean) * scale;
  return withHeights(grid, z);
}

export interface Aligned {
  readonly shape: BandShape;
  readonly place: CurvePlace;
  readonly curve: BaseCurve;
  /** Share of the fine relief's energy that runs parallel to the curve. */
  readonly explained: number;
}

/** How deep inward of a curve is looked for letters, mm. */
export const depthOf = ({ place }: Pick<Aligned, 'place'>): number => 0.75 * Math.min(place.a, place.b);

/** Places to start from, for each shape; the first of an outline's is its own box. */
export type StartsOf = (shape: IdealShape) => readonly CurvePlace[];

/**
 * The ideal outline, of whichever shape, to which most of the relief runs parallel.
 *
 * For every shape and start: climb on the coarse relief (where detail lies), then on the blurred lines; the best few
 * of all shapes climb on the lines themselves. The outline as found, where it fits a shape at once, goes straight to
 * the last stage, since a scan of a matrix shows its own edge. What the image's own edge gives (`nearOf`) is near already and climbs on the
 * blurred lines at once: where detail lies, a piece of lip draws the curve away.
 */
export function alignCurve(relief: BandRelief, startsOf: StartsOf, nearOf: StartsOf = () => []): Aligned[] {
  const share = explainedShares([relief.coarse, relief.middle, relief.lines, relief.fine]);
  const coarse: Try[] = [];
  const direct: Try[] = [];
  const near: Try[] = [];
  for (const shape of idealShapes) {
    const starts = startsOf(shape);
    if (starts.length === 0) continue;
    direct.push(tried(share, level.middle, shape, starts[0]));
    near.push(
      ...nearOf(shape)
        .map((place) => tried(share, level.middle, shape, place))
        .sort(better)
        .slice(0, 1),
    );
    coarse.push(
      ...starts
        .map((place) => tried(share, level.coarse, shape, place))
        .sort(better)
        .slice(0, 4)
        .map((t) => improve(share, level.coarse, t, 1.5, 60)),
    );
  }
  const tries = [...severalOfEach(apart(coarse.sort(better)), 10), ...near].map((t) =>
    improve(share, level.middle, t, 0.6, 90),
  );
  const lines = [...apart(tries.sort(better)).slice(0, 6), ...direct.sort(better).slice(0, 2)]
    .map((t) => improve(share, level.lines, t, 0.4, 100))
    .map((t) => withSidesMoved(share, t))
    .sort(better);
  const sharp = [...apart(lines).slice(0, mostCurves), tried(share, level.fine, direct[0].shape, direct[0].place)];
  return sharp
    .map((t) => improve(share, level.fine, t, 0.2, 120))
    .sort(better)
    .map(({ shape, place, value }) => ({
      shape,
      place,
      curve: curveOf(idealOutline(shape, place, 720)),
      explained: value,
    }));
}

/** So many curves, and the outline as found, are looked along for letters. */
const mostCurves = 6;

/** Numbers of the reliefs. */
const level = { coarse: 0, middle: 1, lines: 2, fine: 3 };

const idealShapes = ['round', 'oval', 'pointedOval', 'shield', 'square'] as const;

interface Try {
  readonly shape: IdealShape;
  readonly place: CurvePlace;
  readonly value: number;
}

const better = (p: Try, q: Try): number => q.value - p.value;

const tried = (share: ExplainedShare, relief: number, shape: IdealShape, place: CurvePlace): Try => ({
  shape,
  place,
  value: share(relief, shape, place),
});

/** The best `count` tries, and the best two of every shape. */
function severalOfEach(sorted: readonly Try[], count: number): Try[] {
  return sorted.filter((t, k) => k < count || sorted.filter((u) => u.shape === t.shape).indexOf(t) < 2);
}

/** Leaves out what lies within half a millimetre of a better try of the same shape. */
function apart(tries: readonly Try[]): Try[] {
  const kept: Try[] = [];
  for (const t of tries) {
    const same = (k: Try): boolean =>
      k.shape === t.shape &&
      Math.hypot(k.place.cx - t.place.cx, k.place.cy - t.place.cy, k.place.a - t.place.a, k.place.b - t.place.b) < 0.5;
    if (!kept.some(same)) kept.push(t);
  }
  return kept;
}

/**
 * Climbed, an outline may lie rightly on three sides and with the fourth on a neighbouring line, from which no small step leads away:
 * each side is tried in other places while that explains markedly more.
 */
function withSidesMoved(share: ExplainedShare, t: Try, rounds = mostRounds): Try {
  if (rounds === 0 || t.shape === 'round') return t;
  const [moved] = sidesMoved(t.place)
    .map((place) => tried(share, level.lines, t.shape, place))
    .sort(better);
  return moved.value > markedly * t.value
    ? withSidesMoved(share, improve(share, level.lines, moved, 0.4, 100), rounds - 1)
    : t;
}

const mostRounds = 3;
const markedly = 1.02;

function improve(share: ExplainedShare, relief: number, start: Try, sizeMm: number, evaluations: number): Try {
  const { shape } = start;
  const { steps, toPlace, from } = freedoms(shape, start.place, sizeMm);
  const { at, value } = climb((p) => share(relief, shape, toPlace(p)), from, steps, evaluations);
  return { shape, place: toPlace(at), value };
}

/** A circle has neither turn nor slimness to be found; its size, and one of an oval's, is taken care of by the depth. */
function freedoms(shape: IdealShape, { cx, cy, turnDeg, a, b }: CurvePlace, sizeMm: number) {
  const free = shape === 'round' ? 2 : shape === 'oval' ? 4 : 5;
  const start = [cx, cy, shape === 'round' ? 0 : turnDeg, a, shape === 'round' ? a : b];
  const turnStep = (sizeMm / Math.max(a, b)) * (180 / Math.PI);
  return {
    from: start.slice(0, free),
    steps: [sizeMm, sizeMm, turnStep, sizeMm, sizeMm].slice(0, free),
    toPlace(found: readonly number[]): CurvePlace {
      const [x, y, turn, halfA, halfB] = [...found, ...start.slice(free)];
      const least = shape === 'pointedOval' ? halfA * 1.05 : 0;
      return { cx: x, cy: y, turnDeg: turn, a: halfA, b: Math.max(halfB, least) };
    },
  };
}
