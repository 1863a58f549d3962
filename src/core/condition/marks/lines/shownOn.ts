import { type HeightGrid, median, quantile } from '../../../geometry/index.ts';
import type { WearRelief } from '../../relief/relief.ts';
import type { Chain } from './chains.ts';
import { lineDefaults } from './lineField.ts';
import { stepsAside } from './ownWay.ts';

export const shownOnDefaults = {
  /** Half of the breadth over which a line's section is taken, mm; at least three cells. */
  reachMm: 1,
  /** Share of the line's cells that must have surface on both faces over this breadth. */
  leastSeen: 0.3,
  /** Pieces of a line over which its height in the difference is averaged, mm. */
  pieceMm: 1,
};

/** A line's height on either face, and how evenly the difference shows it. */
export interface ShownOn {
  readonly onReferenceMm: number;
  readonly onSubjectMm: number;
  /** Height in the difference that three quarters of its pieces reach, over the mean of all. */
  readonly steady: number;
}

/**
 * Height of a line of the difference on each face, mm, by its own shape: with its mean section p(t) in the difference, t the way aside in cells across the line's
 * own way, and c the crest of p over its sides,
 *
 *   height = c · median over the line's cells of Σ z(t) q(t) / Σ q(t)²,   q = p less its own second-order form in t,
 *
 * so that a broad form under the line, or a slope beside it, adds nothing, and a form beside one stretch nothing either. Subject less reference is about c. Null where
 * too little of it has surface on both.
 */
export function shownOn(
  { reference, subject, difference }: WearRelief,
  chain: Pick<Chain, 'cells' | 'ux' | 'uy'>,
  options = shownOnDefaults,
): ShownOn | null {
  const reach = Math.max(3, Math.round(options.reachMm / reference.pitch));
  const stepAt = stepsAside(reference, chain);
  const sections = chain.cells
    .map((i, k) => Array.from({ length: 2 * reach + 1 }, (_, t) => i + stepAt(k, t - reach)))
    .filter((cells) => cells.every((i) => !Number.isNaN(difference[i] ?? Number.NaN)));
  if (sections.length < options.leastSeen * chain.cells.length) return null;
  const mean = Array.from({ length: 2 * reach + 1 }, (_, t) =>
    sections.reduce((sum, cells) => sum + difference[cells[t]] / sections.length, 0),
  );
  const q = lessSecondOrder(mean);
  const size = q.reduce((sum, value) => sum + value * value, 0);
  const beside = Math.min(reach, Math.round(Math.max(2, lineDefaults.besideMm / reference.pitch)));
  const crestMm = mean[reach] - (mean[reach - beside] + mean[reach + beside]) / 2;
  const sharesOf = (z: Float32Array): number[] =>
    sections.map((cells) => cells.reduce((sum, i, t) => sum + z[i] * q[t], 0) / size);
  const heightOn = ({ z }: HeightGrid): number => crestMm * median(sharesOf(z));
  const pieces = meansOver(sharesOf(difference), Math.max(3, Math.round(options.pieceMm / reference.pitch)));
  return { onReferenceMm: heightOn(reference), onSubjectMm: heightOn(subject), steady: quantile(pieces, 0.25) };
}

/** Means of so many values each, a shorter rest joined to the last. */
function meansOver(values: readonly number[], count: number): number[] {
  const pieces = Math.max(1, Math.floor(values.length / count));
  return Array.from({ length: pieces }, (_, k) => {
    const piece = values.slice(k * count, k === pieces - 1 ? undefined : (k + 1) * count);
    return piece.reduce((sum, value) => sum + value / piece.length, 0);
  });
}

/** Values at even steps less their parabola of least squares: 1, t and t² − mean t² are orthogonal there. */
function lessSecondOrder(values: readonly number[]): number[] {
  const half = (values.length - 1) / 2;
  const t = values.map((_, k) => k - half);
  const meanSquare = t.reduce((sum, at) => sum + at * at, 0) / t.length;
  const forms = [t.map(() => 1), t, t.map((at) => at * at - meanSquare)];
  return forms.reduce<number[]>(
    (rest, form) => {
      const along = (of: readonly number[]): number => form.reduce((sum, value, k) => sum + value * of[k], 0);
      const share = along(rest) / along(form);
      return rest.map((value, k) => value - share * form[k]);
    },
    [...values],
  );
}
