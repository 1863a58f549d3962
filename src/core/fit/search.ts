import { type HeightGrid, partOf, type Watch } from '../geometry/index.ts';
import { type Agreement, align, alignTarget } from './align.ts';
import { type CoarsePeak, coarseDefaults, coarseSearch } from './coarse.ts';
import { turnBetweenDeg } from './planar.ts';
import { signalOf } from './signal.ts';

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
  /** The length that bands, reaches and the warp's radius were scaled to, mm. */
  readonly sizeMm: number;
  /** The two faces change places while they are fitted, see `inOrder` in fit.ts. */
  readonly exchanged: boolean;
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
): { proper: Candidate[]; reflected: Candidate[] } {
  const level = (across: number, from: number, to: number) => {
    const pitch = sizeMm / across;
    const widest = Math.max(...[reference, subject].map((grid) => Math.max(grid.width, grid.height) * grid.pitch));
    const cells = Math.round(Math.max(across * 1.25, Math.min(1.05 * (widest / pitch), 1.7 * across)));
    return [reference, subject].map((grid) => signalOf(grid, cells, pitch, from * sizeMm, to * sizeMm));
  };
  const [coarseReference, coarseSubject] = level(options.coarseAcross, options.coarseFrom, options.coarseTo);
  const peaks = coarseSearch(coarseReference, coarseSubject, coarseDefaults, partOf(watch, 0, 0.6));
  const [fineReference, fineSubject] = level(options.fineAcross, options.fineFrom, options.fineTo);
  const coarseTarget = alignTarget(coarseReference);
  const fineTarget = alignTarget(fineReference);
  const roughly = (list: readonly CoarsePeak[]): Candidate[] =>
    distinct(
      list
        .slice(0, options.refined)
        .map((peak) =>
          score(align(coarseTarget, coarseSubject, peak.fit, 8, 0.05), options.coarseAcross * options.coarseFrom),
        ),
    );
  const finely = (list: readonly Candidate[]): Candidate[] =>
    distinct(
      list
        .slice(0, options.finest)
        .map((found) =>
          score(align(fineTarget, fineSubject, found.fit, 20, 0.01), options.fineAcross * options.fineFrom),
        ),
    );
  const proper = roughly(peaks.proper);
  const reflected = roughly(peaks.reflected);
  const likely = (reflected[0]?.significance ?? 0) > options.reflectionShare * (proper[0]?.significance ?? 0);
  return { proper: finely(proper), reflected: likely ? finely(reflected) : [] };
}

/** Cells closer than the shortest wavelength kept are not independent: `wavelength` in cells. */
function score(found: Agreement, wavelength: number): Candidate {
  const independent = found.cells / wavelength ** 2;
  const z = Math.atanh(Math.max(-0.999, Math.min(0.999, found.correlation)));
  return { ...found, significance: z * Math.sqrt(Math.max(0, independent - 3)) };
}

/** Best first; of those that agree within 4° and 1/25 of the size only the best. */
function distinct(list: Candidate[]): Candidate[] {
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
