import { type Face, longSide } from '../face/index.ts';
import { type AlignedRelief, alignRelief, type Fit } from '../fit/index.ts';
import { bandPass, erode, type HeightGrid, median } from '../geometry/index.ts';
import { bandInCells, congruentCells } from './cells.ts';
import { type Constellation, constellationOf } from './constellation.ts';
import { type ArealAgreement, arealAgreement } from './correlation.ts';
import type { Landmark } from './landmarks.ts';
import type { Cell, CongruentCells } from './types.ts';

export interface BandCorrelation {
  readonly fromMm: number;
  readonly toMm: number;
  readonly correlation: number;
}

/** The numbers that the finding rests on. */
export interface Features {
  /** Over the whole band of engraving, strokes to figures. */
  readonly agreement: ArealAgreement;
  /** Median correlation inside the cells by octaves of wavelength, finest first. */
  readonly bands: readonly BandCorrelation[];
  /** That of the finest octave that both scans resolve: tool marks, edges of strokes. */
  readonly fineCorrelation: number;
  readonly cells: CongruentCells;
  /** Median correlation over the compared cells, each at its own best place. */
  readonly cellCorrelation: number;
  /** Median distance, mm, of the cells' own places from where the smooth fit puts them. */
  readonly scatterMm: number;
  /** Point spacing of the coarser scan, mm: what cells can be placed by. */
  readonly spacingMm: number;
  /** That spacing as a share of the face's size. */
  readonly resolution: number;
  /** Share of congruent cells, over the face, its outer part, where legends stand, and the rest. */
  readonly congruentShare: number;
  readonly outerShare: number;
  readonly innerShare: number;
  readonly outerCompared: number;
  /** Places of letters and ornaments, after one scale. */
  readonly constellation: Constellation;
}

export const featureDefaults = {
  /** Cells of the common grid across the face. */
  across: 320,
  /** Margin left out along the edge of the common data, as a share of the size. */
  margin: 0.03,
  /** Shortest wavelength used, mm, and its least length in cells. */
  shortestMm: 0.3,
  shortestCells: 2,
  /** Octaves above the shortest wavelength that are looked at one by one. */
  octaves: [0, 1, 2],
  /** Longest, as a share of the size. */
  longest: 0.1,
  /** Beyond this share of the way from the centre to the rim a cell counts as outer. */
  outerFrom: 0.6,
  /** Cells that agree at least so well have a place of their own. */
  placed: 0.5,
};

/**
 * Compares the two faces' detail cell by cell after the smooth warp, whichever model was chosen, and the places of
 * landmarks after one scale. `landmarks`: put or corrected by hand, in the reference's face frame, mm.
 */
export function featuresOf(
  reference: Face,
  subject: Face,
  fit: Fit,
  landmarks?: readonly Landmark[],
  options = featureDefaults,
): Features {
  const sizeMm = longSide(reference);
  const pitch = Math.max(reference.detail.pitch, sizeMm / options.across);
  const [, oneScale, smooth] = fit.models;
  const aligned = alignRelief(reference, subject, smooth, pitch);
  const common = commonMask(aligned, Math.round((options.margin * sizeMm) / pitch));
  const shortest = Math.max(options.shortestMm, options.shortestCells * pitch);
  const band = (grid: HeightGrid, from: number, to: number): HeightGrid => bandPass(grid, from, to);
  const a = { ...band(aligned.reference, shortest, options.longest * sizeMm), mask: common };
  const b = band(aligned.subject, shortest, options.longest * sizeMm);
  const scaled = band(alignRelief(reference, subject, oneScale, pitch).subject, shortest, options.longest * sizeMm);
  const cells = congruentCells(a, b, sizeMm);
  const outer = cells.cells.filter((cell) => radiusShare(cell, reference.outline.polygon) > options.outerFrom);
  const inner = cells.cells.filter((cell) => !outer.includes(cell));
  const spacingMm = Math.max(reference.detail.pitch, subject.detail.pitch * smooth.scale);
  const bands = options.octaves.map((k): BandCorrelation => {
    const [fromMm, toMm] = [shortest * 2 ** k, shortest * 2 ** (k + 1)];
    const [fineA, fineB] = [aligned.reference, aligned.subject].map((grid) => band(grid, fromMm, toMm));
    const correlation = bandInCells({ ...fineA, mask: common }, fineB, cells.cells, sizeMm, options.placed);
    return { fromMm, toMm, correlation };
  });
  return {
    agreement: arealAgreement(a, b),
    bands,
    fineCorrelation: bands[0].correlation,
    cells,
    cellCorrelation: median(cells.cells.map((cell) => cell.correlation)),
    scatterMm: median(cells.cells.filter((cell) => cell.correlation >= options.placed).map((cell) => cell.offsetMm)),
    spacingMm,
    resolution: spacingMm / sizeMm,
    congruentShare: shareCongruent(cells.cells),
    outerShare: shareCongruent(outer),
    innerShare: shareCongruent(inner),
    outerCompared: outer.length,
    constellation: constellationOf(a, scaled, sizeMm, landmarks),
  };
}

const shareCongruent = (cells: readonly Cell[]): number =>
  cells.length > 0 ? cells.filter((cell) => cell.congruent).length / cells.length : 0;

function commonMask({ reference, subject }: AlignedRelief, marginCells: number): Uint8Array {
  const both = reference.mask.map((value, i) => value & subject.mask[i]);
  return erode(both, reference.width, marginCells);
}

/** Distance of a cell from the centre as a share of the rim's there. */
function radiusShare({ x, y }: Cell, polygon: Float64Array): number {
  const angle = Math.atan2(y, x);
  let best = 0;
  let bestTurn = Number.POSITIVE_INFINITY;
  for (let i = 0; i < polygon.length; i += 2) {
    const turn = Math.abs(
      Math.atan2(
        Math.sin(Math.atan2(polygon[i + 1], polygon[i]) - angle),
        Math.cos(Math.atan2(polygon[i + 1], polygon[i]) - angle),
      ),
    );
    if (turn < bestTurn) [best, bestTurn] = [i, turn];
  }
  return Math.hypot(x, y) / Math.hypot(polygon[best], polygon[best + 1]);
}
