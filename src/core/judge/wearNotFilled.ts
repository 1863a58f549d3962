import { gaussianFilter, quantile, withHeights } from '../geometry/index.ts';
import type { LossField } from './wearLoss.ts';
import { narrowHeight, type WearRelief } from './wearRelief.ts';

export const notFilledDefaults = {
  /** Cut-off over which a region's kept heights are taken, mm, and as a share of the size: the greater. */
  regionMm: 6,
  regionShare: 0.15,
  /** Height that narrow forms keep in a region that was not filled, at most. */
  mostKept: 0.55,
  /** … and at most this share of what narrow forms keep over the face. */
  mostAgainstFace: 0.7,
  /** A region is judged where it has at least this share of narrow, high cells. */
  leastShare: 0.02,
};

/**
 * Cells where the wax did not fill the die: by region, narrow forms (wavelengths under about 2.7 mm) lack most of their
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
  const narrow = narrowHeight(reference);
  const least = quantile(
    narrow.filter((_, i) => reference.mask[i] === 1 && i % 3 === 0),
    0.9,
  );
  const isNarrow = narrow.map((value, i) => (value > least && reference.mask[i] && subject.mask[i] ? 1 : 0));
  const broad = exposure.map((value, i) =>
    value > least && narrow[i] < 0.3 * value && reference.mask[i] && subject.mask[i] ? 1 : 0,
  );
  const keptNarrow = keptBy(relief, isNarrow, narrow, narrowHeight(subject), region);
  const keptBroad = keptBy(
    relief,
    broad,
    exposure,
    exposure.map((value, i) => value + (Number.isNaN(d[i]) ? 0 : d[i])),
    region,
  );
  const usual = quantile(
    keptNarrow.kept.filter((value, i) => isNarrow[i] && !Number.isNaN(value)),
    0.5,
  );
  return lacking.map((value, i) => {
    if (!value || !(keptNarrow.share[i] > options.leastShare)) return 0;
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
  const all = new Uint8Array(a.length).fill(1);
  const mean = (value: (i: number) => number): Float32Array =>
    gaussianFilter(
      withHeights(
        reference,
        a.map((_, i) => (chosen[i] ? value(i) : 0)),
        all,
      ),
      regionMm,
    ).z;
  const ab = mean((i) => a[i] * b[i]);
  const aa = mean((i) => a[i] * a[i]);
  return { kept: ab.map((value, i) => value / aa[i]), share: mean(() => 1) };
}
