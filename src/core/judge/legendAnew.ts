import { oneMatrixMm, type RivalOptions, type WeighedPlaces } from './rivalDefaults.ts';
import { lotsFit, type ScatterFit } from './scatter.ts';

export const legendAnewDefaults = {
  /** The motif reaches so far from the middle of the face, in shares of its size: nobody knows where the legend begins. */
  reaches: [0.15, 0.2, 0.25, 0.3],
  /** Asked where a larger share of the places lies nowhere near: one matrix and a copyist put nearly everything in its place. */
  fromOutliers: 0.1,
};

type Place = { readonly x: number; readonly y: number };

/**
 * This matrix, its motif as it was and its legend cut anew: places within a reach of the middle scatter as one matrix's do, those farther out
 * as under a stock motif's legend, any share of them anywhere; one flow, of the `degree` that its rivals have. Every reach, scatter and
 * scale of errors is as likely as the others. None where no reach holds places enough.
 */
export function legendAnewFits(places: WeighedPlaces, degree: number, options: RivalOptions): ScatterFit[] {
  const all = [...places.patches.keys()];
  const flow = { ...places, degree };
  return legendAnewDefaults.reaches.flatMap((reach) => {
    const inMotif = ({ x, y }: Place): boolean => Math.hypot(x, y) < reach * places.sizeMm;
    const motif = all.filter((i) => inMotif(places.patches[i]));
    if (motif.length < options.leastInMiddle) return [];
    const legend = all.filter((i) => !inMotif(places.patches[i]));
    const absent = places.absent.filter(inMotif).length;
    const lots = (sigmaMm: number, letterMm: number) => [
      { ...options.accidents, sigmaMm, of: motif, absent },
      { ...options.otherLegend, sigmaMm: letterMm, of: legend, absent: places.absent.length - absent },
    ];
    return oneMatrixMm(places, options).flatMap((sigmaMm) =>
      options.copyMm.flatMap((letterMm) =>
        options.errorScales.map((scale) => lotsFit(places.patches, lots(sigmaMm, letterMm), flow, scale)),
      ),
    );
  });
}
