import { type Face, imageBox, imageHull, insidePolygon } from '../face/index.ts';
import { columnOf, type HeightGrid, resampleGrid, rowOf, withHeights, xOf, yOf } from '../geometry/index.ts';
import { type Band, bandInside, insideParallel } from './legend/band.ts';
import { findLegendBands, rememberBands } from './legend/findBands.ts';

export type ZoneName = 'legend' | 'field' | 'motif' | 'border' | 'whole';

/** Zones in the order of their labels: label k + 1 stands for zoneNames[k], 0 for outside the face. */
export const zoneNames = ['legend', 'field', 'motif', 'border'] as const satisfies readonly ZoneName[];
const [legend, field, motif, border] = [1, 2, 3, 4];

/** Where the parts of the design lie on a face. */
export interface FaceZones {
  /** The rings of the legend, outermost first; never empty. */
  readonly bands: readonly Band[];
  /** Whether the legend was seen in the relief, or taken to lie where legends usually do. */
  readonly bandFrom: 'relief' | 'assumed';
  /** The cells that the labels belong to: the face's relief map. */
  readonly grid: HeightGrid;
  readonly labels: Uint8Array;
}

/** The face is looked at with this many cells across; zones need no more. */
const cellsAcross = 360;

/** Where a legend is taken to lie on a face that shows none: from the image's end inward, as shares of its short side. */
export const partDefaults = { assumedBand: [0.03, 0.2] as const };

/**
 * Divides a face into border, legend, motif and field, from its image and detail alone.
 *
 * The legend is the one that is unrolled for reading (legend/findBands.ts): between two parallels to a curve to which
 * the relief runs parallel. Border: from the image's end to the legend's outer edge, and the inner border line. Inside the
 * legend the motif is what stands above (relief) or lies below (intaglio) the field by more than its threshold, with
 * one cell around; the field is the rest. `labels` on the cells of face.relief.
 */
export function findZones(face: Face): FaceZones {
  const known = knownZones.get(face) ?? zonesOf(face);
  knownZones.set(face, known);
  return known;
}

/** Zones of a face that were found elsewhere. */
export function rememberZones(face: Face, zones: FaceZones): void {
  knownZones.set(face, zones);
  rememberBands(face, zones.bandFrom === 'relief' ? zones.bands : []);
}

/** Zones of a face that were found already, here or elsewhere. */
export const rememberedZones = (face: Face): FaceZones | undefined => knownZones.get(face);

/** A face does not change, and more than one step asks for its zones. */
const knownZones = new WeakMap<Face, FaceZones>();

function zonesOf(face: Face): FaceZones {
  const grid = face.relief;
  const coarse = coarseDetail(face);
  const found = findLegendBands(face);
  const bands = found.length > 0 ? found : [assumedBand(face)];
  const coarseLabels = label(coarse, face, bands);
  const labels = new Uint8Array(grid.z.length);
  for (let row = 0, i = 0; row < grid.height; row++)
    for (let col = 0; col < grid.width; col++, i++) {
      const c = Math.round(columnOf(coarse, xOf(grid, col)));
      const r = Math.round(rowOf(coarse, yOf(grid, row)));
      if (c >= 0 && r >= 0 && c < coarse.width && r < coarse.height) labels[i] = coarseLabels[r * coarse.width + c];
    }
  return { grid, labels, bands, bandFrom: found.length > 0 ? 'relief' : 'assumed' };
}

function assumedBand(face: Face): Band {
  const { shortSide } = imageBox(face);
  const [outer, inner] = partDefaults.assumedBand.map((share) => share * shortSide);
  return bandInside(face, imageHull(face), outer, inner);
}

/** Zone label of the cell nearest to (x, y) mm of the face frame, 0 outside. */
export function labelAt({ grid, labels }: FaceZones, x: number, y: number): number {
  const col = Math.round(columnOf(grid, x));
  const row = Math.round(rowOf(grid, y));
  return col >= 0 && row >= 0 && col < grid.width && row < grid.height ? labels[row * grid.width + col] : 0;
}

/** Detail with the design upward in both senses, on coarser cells. */
function coarseDetail(face: Face): HeightGrid {
  const { detail, sense } = face;
  const coarse = resampleGrid(detail, Math.max(detail.pitch, imageBox(face).side / cellsAcross));
  return sense === 'relief'
    ? coarse
    : withHeights(
        coarse,
        coarse.z.map((value) => -value),
      );
}

function label(detail: HeightGrid, face: Face, bands: readonly Band[]): Uint8Array {
  const labels = insidePolygon(detail, imageHull(face)).map((inside) => (inside ? border : 0));
  for (const band of bands) {
    paint(labels, insideParallel(detail, band, band.outerMm), legend);
    paint(labels, insideParallel(detail, band, band.innerMm), border);
    paint(labels, insideParallel(detail, band, band.insideMm), field);
  }
  markMotif(detail, labels, face.noiseMm);
  return labels;
}

function paint(labels: Uint8Array, where: Uint8Array, name: number): void {
  for (let i = 0; i < labels.length; i++) if (labels[i] && where[i]) labels[i] = name;
}

/** Turns the raised cells of the field, and their neighbours, into motif. */
function markMotif({ z, mask, width }: HeightGrid, labels: Uint8Array, noiseMm: number): void {
  const heights = Float64Array.from(z.filter((_, i) => labels[i] === field && mask[i] === 1)).sort();
  if (heights.length < 20) return;
  const ground = mode(heights);
  const top = heights[Math.floor(0.98 * (heights.length - 1))];
  const least = ground + Math.max(4 * noiseMm, 0.12 * (top - ground));
  const raised = z.map((value, i) => (labels[i] === field && mask[i] === 1 && value > least ? 1 : 0));
  for (let i = 0; i < labels.length; i++) {
    if (labels[i] !== field) continue;
    const near = raised[i] || raised[i - 1] || raised[i + 1] || raised[i - width] || raised[i + width];
    if (near) labels[i] = motif;
  }
}

/** The densest height of an ascending list: middle of its shortest quarter. */
function mode(ascending: Float64Array): number {
  const span = Math.floor(ascending.length / 4);
  let at = 0;
  for (let i = 0; i + span < ascending.length; i++)
    if (ascending[i + span] - ascending[i] < ascending[at + span] - ascending[at]) at = i;
  return (ascending[at] + ascending[at + span]) / 2;
}
