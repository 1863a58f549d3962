import { type HeightGrid, partOf, type Watch } from '../geometry/index.ts';
import { type Signal, signalDefaults, signalOf } from './bandPassed.ts';
import { type CoarsePeak, coarseDefaults, coarseSearch } from './coarse.ts';
import { type Agreement, align, alignTarget } from './lucasKanade.ts';
import { type PlanarFit, turnBetweenDeg } from './similarity2d.ts';
import type { StartTaken } from './types.ts';

/** A way of laying the faces on one another that the relief supports. */
export interface Candidate extends Agreement {
  /** atanh(correlation) · √(independent cells): how far the agreement stands above chance, in standard deviations. */
  readonly significance: number;
}

/** What the search found for two faces, before any surface is fitted. */
export interface Searched {
  readonly best: Candidate;
  readonly rivals: readonly Candidate[];
  readonly mirrored: boolean;
  /** Significances of the best places of ways that no pair allows, and of the best reflection: see `chanceOf`. */
  readonly none: NonePossible;
  /** The length that bands, reaches and the warp's radius were scaled to, mm. */
  readonly sizeMm: number;
  /** The two faces change places while they are fitted, see `inOrder` in fit.ts. */
  readonly exchanged: boolean;
  /** Given where the fit begins at a place that was put by hand. */
  readonly start?: StartTaken;
}

/** What the search reaches where the faces cannot agree. */
export interface NonePossible {
  readonly wrongSign: readonly number[];
  readonly mirror: number;
}

export const searchDefaults = {
  /** Cells across the reference at the two levels. */
  coarseAcross: 64,
  fineAcross: 140,
  /** Bands as shares of the reference's size. */
  coarseFrom: 1 / 26,
  coarseTo: 1 / 7,
  fineFrom: 1 / 50,
  fineTo: 1 / 9,
  /** Places refined at the coarse and at the fine level. */
  refined: 32,
  finest: 6,
  /** Reflections get a fine look only when at the coarse level they reach this share of the best rotation. */
  reflectionShare: 0.8,
  /** Places of each impossible way improved at the two levels, for what chance reaches. */
  noneRefined: 10,
  noneFinest: 4,
  /** The widest grid, in common sizes, and the side of the coarse level's transform. */
  widest: 1.7,
  transform: coarseDefaults.transform,
  /** Relief weaker than this share of its median strength is not evened out with the rest. */
  floor: signalDefaults.floor,
};

/**
 * All distinct ways of laying the subject's face on the reference's, most significant first: coarse search over all
 * turns, sizes, shifts and both proper ways; the best places improved coarse, then fine. `sizeMm` sets
 * the bands and the cells: the size of the design that both show.
 */
export function searchFits(
  reference: HeightGrid,
  subject: HeightGrid,
  sizeMm: number,
  watch: Watch = {},
  options = searchDefaults,
): { proper: Candidate[]; reflected: Candidate[]; none: NonePossible } {
  const coarse = coarseLevel(reference, subject, sizeMm, options);
  const peaks = coarseSearch(...coarse, { ...coarseDefaults, transform: options.transform }, partOf(watch, 0, 0.6));
  const { roughly, finely } = improvers(coarse, fineLevel(reference, subject, sizeMm, options), options);
  const rough = (list: readonly CoarsePeak[]): Candidate[] =>
    distinct(list.slice(0, options.refined).map(({ fit }) => roughly(fit)));
  const fine = (list: readonly Candidate[]): Candidate[] =>
    distinct(list.slice(0, options.finest).map(({ fit }) => finely(fit)));
  const proper = rough(peaks.proper);
  const reflected = rough(peaks.reflected);
  const likely = (reflected[0]?.significance ?? 0) > options.reflectionShare * (proper[0]?.significance ?? 0);
  const properFine = fine(proper);
  const reflectedFine = likely ? fine(reflected) : [];
  const all = [...peaks.proper, ...peaks.reflected];
  const bestOf = (flipX: boolean, negate: boolean): number[] => {
    const list = all
      .filter(({ fit }) => fit.flipX === flipX && fit.negate === negate)
      .sort((a, b) => b.score - a.score);
    const near = distinct(list.slice(0, options.noneRefined).map(({ fit }) => roughly(fit)));
    return distinct(near.slice(0, options.noneFinest).map(({ fit }) => finely(fit))).map((c) => c.significance);
  };
  const { flipX = false, negate = false } = properFine[0]?.fit ?? {};
  const none: NonePossible = {
    wrongSign: [...bestOf(true, !negate), ...bestOf(false, !negate)],
    mirror: Math.max(0, ...bestOf(!flipX, negate)),
  };
  return { proper: properFine, reflected: reflectedFine, none };
}

/**
 * What the search reaches at each of `turns` turns, even round the circle, as the faces lie and turned over: the place that most
 * favours the one turn, of all sizes and shifts, improved coarse and fine as the best places are. Significances,
 * straight and over in turn.
 */
export function reachedAt(
  reference: HeightGrid,
  subject: HeightGrid,
  sizeMm: number,
  turns: number,
  options = searchDefaults,
): number[] {
  const coarse = coarseLevel(reference, subject, sizeMm, options);
  const { roughly, finely } = improvers(coarse, fineLevel(reference, subject, sizeMm, options), options);
  const { proper } = coarseSearch(...coarse, { ...coarseDefaults, turns });
  const reached = new Array<number>(2 * turns).fill(Number.NaN);
  // Best first: of each turn and way the first is improved.
  for (const { fit } of proper) {
    const at = 2 * Math.round((fit.turn / (2 * Math.PI)) * turns) + (fit.negate ? 1 : 0);
    if (Number.isNaN(reached[at])) reached[at] = finely(roughly(fit).fit).significance;
  }
  return reached;
}

/** Places that were found or given otherwise, improved as those of the search are: coarse, then fine; best first. */
export function improvePlaces(
  reference: HeightGrid,
  subject: HeightGrid,
  sizeMm: number,
  starts: readonly PlanarFit[],
  options = searchDefaults,
): Candidate[] {
  const coarse = coarseLevel(reference, subject, sizeMm, options);
  const { roughly, finely } = improvers(coarse, fineLevel(reference, subject, sizeMm, options), options);
  return distinct(starts.map((start) => finely(roughly(start).fit)));
}

type Options = typeof searchDefaults;
type Level = [Signal, Signal];

const coarseLevel = (reference: HeightGrid, subject: HeightGrid, sizeMm: number, options: Options): Level =>
  levelOf(reference, subject, sizeMm, options.coarseAcross, options.coarseFrom, options.coarseTo, options);
const fineLevel = (reference: HeightGrid, subject: HeightGrid, sizeMm: number, options: Options): Level =>
  levelOf(reference, subject, sizeMm, options.fineAcross, options.fineFrom, options.fineTo, options);

function levelOf(
  reference: HeightGrid,
  subject: HeightGrid,
  sizeMm: number,
  across: number,
  from: number,
  to: number,
  options: Options,
): Level {
  const pitch = sizeMm / across;
  const widest = Math.max(...[reference, subject].map((grid) => Math.max(grid.width, grid.height) * grid.pitch));
  const cells = Math.round(Math.max(across * 1.25, Math.min(1.05 * (widest / pitch), options.widest * across)));
  const signal = (grid: HeightGrid): Signal => signalOf(grid, cells, pitch, from * sizeMm, to * sizeMm, options.floor);
  return [signal(reference), signal(subject)];
}

/** One step of improvement at either level. A place that is asked for again, as the likely ways and the impossible ones may share it, is improved once. */
function improvers(coarse: Level, fine: Level, options: Options) {
  const coarseTarget = alignTarget(coarse[0]);
  const fineTarget = alignTarget(fine[0]);
  return {
    roughly: onceEach((start) =>
      score(align(coarseTarget, coarse[1], start, 8, 0.05), options.coarseAcross * options.coarseFrom),
    ),
    finely: onceEach((start) =>
      score(align(fineTarget, fine[1], start, 20, 0.01), options.fineAcross * options.fineFrom),
    ),
  };
}

function onceEach(improve: (start: PlanarFit) => Candidate): (start: PlanarFit) => Candidate {
  const known = new Map<PlanarFit, Candidate>();
  return (start) => {
    const found = known.get(start) ?? improve(start);
    known.set(start, found);
    return found;
  };
}

/** Cells closer than the shortest wavelength kept are not independent: `wavelength` in cells. */
function score(found: Agreement, wavelength: number): Candidate {
  const independent = found.cells / wavelength ** 2;
  const z = Math.atanh(Math.max(-0.999, Math.min(0.999, found.correlation)));
  return { ...found, significance: z * Math.sqrt(Math.max(0, independent - 3)) };
}

/** Best first; of those that agree within 4° and 1/25 of the size only the best. */
export function distinct(list: Candidate[]): Candidate[] {
  const kept: Candidate[] = [];
  for (const candidate of list.sort((a, b) => b.significance - a.significance))
    if (!kept.some((other) => same(candidate, other))) kept.push(candidate);
  return kept;
}

const same = (a: Candidate, b: Candidate): boolean =>
  a.fit.flipX === b.fit.flipX &&
  a.fit.negate === b.fit.negate &&
  Math.abs(turnBetweenDeg(a.fit, b.fit)) < 4 &&
  Math.hypot(a.fit.tx - b.fit.tx, a.fit.ty - b.fit.ty) < 1;
