import type { HeightGrid, Similarity, Vec3 } from '../geometry/index.ts';

/** Intaglio: engraved (matrix, mould). Relief: raised (impression, cast). */
export type Sense = 'intaglio' | 'relief';

export type OutlineShape = 'round' | 'oval' | 'pointedOval' | 'shield' | 'square' | 'irregular';

export interface Outline {
  readonly shape: OutlineShape;
  /** Size along x and y of the face frame, mm. */
  readonly widthMm: number;
  readonly heightMm: number;
  /** The rim in the face frame, mm: x, y pairs, counter-clockwise, closed implicitly, about 180 points. */
  readonly polygon: Float64Array;
  /** How much better the named shape fits than the next, 0 to 1. */
  readonly confidence: number;
}

/** One surface of the object that could carry the design. */
export interface FaceCandidate {
  /** Outward direction in scan coordinates, unit length. */
  readonly outward: Vec3;
  readonly areaMm2: number;
  /** Root mean square of the band-passed relief, mm. */
  readonly detailMm: number;
  /** Relative score; candidates are listed best first. */
  readonly score: number;
}

/**
 * The engraved or impressed side of a scan, levelled and turned upright. Face frame: x right, y up the design,
 * z out of the face; the origin is the centre of the outline on the mean plane.
 */
export interface Face<S extends Sense = Sense> {
  readonly sense: S;
  /** 0.5 = cannot be told, 1 = sure. Low for open sheets, where winding alone speaks. */
  readonly senseConfidence: number;
  readonly senseFrom: 'stated' | 'closedBody' | 'winding';
  /** Scan (centred mesh coordinates, mm) → face frame. Scale is 1. */
  readonly faceFromScan: Similarity;
  readonly upFrom: 'stated' | 'longAxis' | 'scan';
  readonly outline: Outline;
  /** Heights above the mean plane at the scan's own resolution, form included. */
  readonly relief: HeightGrid;
  /** The same with the second-order form removed: what the design is read from. */
  readonly detail: HeightGrid;
  /** The detail of the image alone, without bevel, lip and rim: what is searched and judged. See `imageOf`. */
  readonly image: HeightGrid;
  /** The image of a coarse scan in finer cells: what places are measured on; the image itself where there is none. See `fineImage`. */
  readonly fine?: HeightGrid;
  /** Robust estimate of the scan's noise on the face, mm (1 σ). */
  readonly noiseMm: number;
  /** Distance over which that noise is correlated, mm. */
  readonly noiseLengthMm: number;
  /** Share of the outline's area that carries data. */
  readonly filled: number;
  /** Holes inside the outline, each over ten cells. */
  readonly holes: number;
  readonly candidates: readonly FaceCandidate[];
  /** Which of the candidates this is. */
  readonly candidate: number;
  /** Not the face as prepared but another of the same object, looked at because it is as likely and taken because it agreed better. */
  readonly tried?: true;
  /** Something was left out by hand: some of the edge is a person's. */
  readonly cut?: true;
}

/** What the user states about where the face is. */
export interface FaceOptions {
  readonly sense?: Sense;
  /** Direction in the file's axes that the face looks toward. */
  readonly toward?: Vec3;
  /** Turn that brings the design upright, degrees clockwise as seen on the face, from the tool's own choice. */
  readonly upDeg?: number;
  /** Index into the candidates, for objects with two engraved faces. */
  readonly candidate?: number;
}
