import { findZones } from '../design/index.ts';
import { type Face, imageBox, longSide, noiseAtLag } from '../face/index.ts';
import { type Fit, modelOf } from '../fit/index.ts';
import {
  gaussianFilter,
  type HeightGrid,
  median,
  report,
  sigmaOfCutoff,
  vertexNormals,
  type Watch,
  withHeights,
} from '../geometry/index.ts';
import { type Depths, depthsOf, type MeasuredSide } from './depths.ts';
import { differenceMap, inImpressionSense } from './differenceMap.ts';
import { residualGrowth } from './growth.ts';
import { effectiveNeighbours, levelGrid } from './levelOfDetection.ts';
import { type ChainLink, isTranslucent } from './materials.ts';
import { type SubjectMotion, sizeAlongAxes, subjectMotion } from './motion.ts';
import { differencesOfImage } from './ofImage.ts';
import { inRegions, significantCells } from './significance.ts';
import { sizeTest } from './sizeTest.ts';
import { differenceStatistics } from './statistics.ts';
import type { Difference, LevelParts } from './types.ts';

/** One side of a comparison. */
export interface ComparedSide extends Omit<ChainLink, 'sense'>, MeasuredSide {
  readonly scaleUncertaintyPercent: number;
  readonly scaleUncertaintyFrom: 'stated' | 'assumed';
}

export const compareDefaults = {
  /** The map has at most this many cells along the face's long side. */
  mostAcross: 700,
  /** Cut-off of the Gaussian mean that the map is taken over, in cells. */
  meanCells: 3,
  /** What light inside wax or resin adds to the uncertainty, mm (1 σ): of the order of 0.01 to 0.02, from memory. */
  translucentMm: 0.015,
  /** The map's own noise is read from fourth differences over so many cells, farther than scan noise, and what lies between points, err alike. */
  noiseLag: 6,
  /** Errors of the map go together over four cells by four: a piece no larger is one sample, a spike say. */
  sampleCells: 16,
};

/**
 * Everything that is measured between two fitted faces: depth differences of every subject vertex under the one-scale
 * model (and under the warp where one was chosen); of the reference's image the map of the chosen model with its level of detection, statistics
 * by zone, and the size test. Needs `fit.found`. `known`: depth differences that were measured before.
 */
export function compareFaces(
  reference: ComparedSide,
  subject: ComparedSide,
  fit: Fit,
  watch: Watch = {},
  options: typeof compareDefaults = compareDefaults,
  known?: Depths,
): Difference {
  const ready = { ...subject, normals: subject.normals ?? vertexNormals(subject.mesh) };
  const { oneScale: perVertexMm, chosen: perVertexChosen } = known ?? depthsOf(reference, ready, fit, watch);
  const chosen = modelOf(fit, fit.chosen);
  report(watch, 0.75, 'Mapping the differences');
  const motion = subjectMotion(reference.face, chosen);
  const mapped = mapDifferences(reference, ready, fit, motion, perVertexChosen, options);
  report(watch, 0.9, 'Comparing sizes');
  return {
    perVertexMm,
    ...(chosen.warp && { perVertexWarpedMm: perVertexChosen }),
    ...mapped,
    size: compareSizes(reference, ready, fit, motion, perVertexChosen),
  };
}

type ReadySide = ComparedSide & { readonly normals: Float32Array };

function mapDifferences(
  reference: ComparedSide,
  subject: ReadySide,
  fit: Fit,
  motion: SubjectMotion,
  perVertex: Float32Array,
  options: typeof compareDefaults,
): Omit<Difference, 'perVertexMm' | 'perVertexWarpedMm' | 'size'> {
  const { face } = reference;
  const { scale } = modelOf(fit, fit.chosen);
  const pitch = mapPitch(face, subject.face, scale, options.mostAcross);
  const cells = differenceMap(face, subject.mesh, motion, perVertex, pitch);
  const map = gaussianFilter(cells, options.meanCells * pitch);
  const meanSigma = sigmaOfCutoff(options.meanCells * pitch);
  const neighbours = (side: Face): number => effectiveNeighbours(meanSigma, pitch, side.noiseLengthMm);
  const shown = noiseAtLag(map, options.noiseLag);
  const parts: LevelParts = {
    ...(shown > 0 && { mapSigmaMm: shown }),
    sigmaMm: [face.noiseMm, subject.face.noiseMm * scale],
    neighbours: [neighbours(face), neighbours(subject.face)],
    systematicMm: systematicOf(reference, options) + systematicOf(subject, options),
  };
  const level = levelGrid(map, face.relief, { ...parts, covariance: fit.covariance });
  const regions = inRegions(significantCells(map, level), map.width, options.sampleCells);
  return {
    map: inImpressionSense(map, face),
    levelOfDetection: inImpressionSense(level, face),
    significant: inImpressionSense(asGrid(map, regions), face).mask,
    level: parts,
    levelOfDetectionMm: median(level.z.filter((_, i) => level.mask[i] === 1)),
    ...differenceStatistics(cells, findZones(face)),
  };
}

/** Cells of the map: as fine as the coarser scan, at most `mostAcross` along the face. */
function mapPitch(reference: Face, subject: Face, scale: number, mostAcross: number): number {
  const size = longSide(reference);
  return Math.max(reference.relief.pitch, subject.relief.pitch * scale, size / mostAcross);
}

const asGrid = (grid: HeightGrid, mask: Uint8Array): HeightGrid => withHeights(grid, grid.z, mask);

/** An impression whose material nobody stated is taken to be wax. */
function systematicOf({ material, kind, face }: ComparedSide, { translucentMm }: typeof compareDefaults): number {
  const wax = material ? isTranslucent(material) : face.sense === 'relief' && kind !== 'cast';
  return wax ? translucentMm : 0;
}

function compareSizes(
  reference: ComparedSide,
  subject: ReadySide,
  fit: Fit,
  motion: SubjectMotion,
  perVertex: Float32Array,
) {
  const box = imageBox(reference.face);
  const ofImage = differencesOfImage(reference.face, subject.mesh, motion, perVertex);
  const growth = residualGrowth(subject.mesh.positions, subject.normals, motion, ofImage, box);
  const sized = (side: ComparedSide) => ({ ...side, sense: side.face.sense });
  return sizeTest(fit, sizeAlongAxes(motion, box), growth, sized(reference), sized(subject));
}
