import { quantile } from '../../geometry/index.ts';
import type { LossField } from '../relief/loss.ts';
import { sampled } from '../relief/parts.ts';
import { regionMeans } from '../relief/regions.ts';
import type { WearRelief } from '../relief/relief.ts';

export const notFilledDefaults = {
  /** Cut-off over which a region's kept heights are taken, mm, and as a share of the size: the greater. */
  regionMm: 8,
  regionShare: 0.3,
  /** Height that narrow forms keep in a region that was not filled, at most. */
  mostKept: 0.45,
  /** … and at most this share of what the better regions keep, … */
  mostAgainstFace: 0.6,
  /** … which is at least so much: where narrow forms are low everywhere, rubbing and blur explain it as well. */
  leastElsewhere: 0.65,
  /** The border is left out, as a share of the size: it wears by itself. */
  rimShare: 0.06,
  /** A region is judged where it has at least this share of narrow, high cells. */
  leastShare: 0.02,
};

/**
 * Cells where the wax did not fill the matrix: by region, narrow forms (wavelengths under about 2.7 mm) lack most of their
 * height although the same forms are better kept elsewhere, and broad forms of the same region are not lower in
 * proportion. Rubbing does the reverse: it takes broad and narrow tops of the same height alike.
 */
export function notFilledCells(
  relief: WearRelief,
  { exposure }: LossField,
  lacking: Uint8Array,
  options = notFilledDefaults,
): Uint8Array {
  const { reference, subject, difference: d, sizeMm } = relief;
  const region = Math.max(options.regionMm, options.regionShare * sizeMm);
  const narrow = relief.narrow.reference;
  const least = quantile(
    sampled(narrow, (i) => reference.mask[i] === 1),
    0.9,
  );
  const fromRim = relief.fromEdge;
  const rim = (options.rimShare * sizeMm) / reference.pitch;
  const isNarrow = narrow.map((value, i) =>
    value > least && fromRim[i] > rim && reference.mask[i] && subject.mask[i] ? 1 : 0,
  );
  const broad = exposure.map((value, i) =>
    value > least && narrow[i] < 0.3 * value && reference.mask[i] && subject.mask[i] ? 1 : 0,
  );
  const keptNarrow = keptBy(relief, isNarrow, narrow, relief.narrow.subject, region);
  const keptBroad = keptBy(
    relief,
    broad,
    exposure,
    exposure.map((value, i) => value + (Number.isNaN(d[i]) ? 0 : d[i])),
    region,
  );
  const usual = quantile(
    sampled(keptNarrow.kept, (i) => isNarrow[i] === 1 && !Number.isNaN(keptNarrow.kept[i])),
    0.75,
  );
  if (!(usual >= options.leastElsewhere)) return new Uint8Array(lacking.length);
  return lacking.map((value, i) => {
    if (!value || !(fromRim[i] > rim) || !(keptNarrow.share[i] > options.leastShare)) return 0;
    const kept = keptNarrow.kept[i];
    const low = kept < options.mostKept && kept < options.mostAgainstFace * usual;
    const broadKept = keptBroad.share[i] > options.leastShare ? keptBroad.kept[i] : 1;
    return low && broadKept > kept + 0.15 ? 1 : 0;
  });
}

/** Σ b a / Σ a² over the chosen cells in a Gaussian region about every cell, and the share of chosen cells there. */
function keptBy(
  { reference }: WearRelief,
  chosen: ArrayLike<number>,
  a: Float32Array,
  b: Float32Array,
  regionMm: number,
) {
  const mean = regionMeans(reference, regionMm, 3, (i, out) => {
    if (!chosen[i]) return;
    out[0] = a[i] * b[i];
    out[1] = a[i] * a[i];
    out[2] = 1;
  });
  return { kept: mean(0, 1), share: mean(2) };
}
