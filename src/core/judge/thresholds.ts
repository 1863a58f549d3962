import type { Fit } from '../fit/index.ts';
import type { Features } from './features.ts';

export const findingDefaults = {
  /** Score from which the claim is supported, and below which the evidence is against it: set on the reference population, docs/judge.md. */
  support: 1,
  against: -1.5,
  /** Strength on the printed scale: weak below the first, moderate below the second, strong above. */
  moderate: 1.6,
  strong: 2.4,
  /** Against needs landmarks off their places: at least so many seen, and so large a share of them outside their error ellipses, … */
  leastLandmarks: 15,
  leastOutside: 0.25,
  /** … by at least so much, and by so much of the coarser scan's point spacing. */
  leastOffMm: 0.06,
  leastOffSpacing: 0.25,
  /** No support on fewer compared cells, or with less of the legend's part of the face congruent. */
  leastCells: 8,
  leastOuterShare: 0.55,
  leastOuterCompared: 4,
  /** Less of the legend's part congruent is another legend, where so many cells of it were compared: five can be wax that flowed. */
  otherLegendShare: 0.5,
  leastOuterAgainst: 8,
  /** No verdict on less of the smaller face. */
  leastOverlap: 0.3,
  /** Coarser than so many points across the face, copies come near: support needs a moderate score, and nothing is spoken against. */
  leastPoints: 100,
};

/** How far off their places landmarks must lie, mm: nearer than this the scans cannot place them. */
export const offPlaceMm = ({ spacingMm }: Features, options: typeof findingDefaults): number =>
  Math.max(options.leastOffMm, options.leastOffSpacing * spacingMm);

/** Points of the coarser scan across the face. */
export const pointsAcross = ({ resolution }: Features): number => Math.round(1 / resolution);

export const hasRivalTurn = (fit: Fit): boolean => fit.doubts.some((doubt) => doubt.startsWith('Another turn'));
