import type { Place } from './patches.ts';

export interface WeighedPlaces {
  readonly patches: readonly Place[];
  /** Clear on both faces and found nowhere. */
  readonly absent: readonly Pick<Place, 'x' | 'y'>[];
  readonly sizeMm: number;
  readonly windowMm2: number;
  readonly spacingMm: number;
  /** Independent places over patches: neighbours that share a letter say one thing. */
  readonly share: number;
}

export const rivalDefaults = {
  /**
   * Scatter of places, mm, log-uniform on these: of one matrix on an image so long, and in proportion on longer ones, since the more wax there
   * is the farther it flows; of one cut again by hand, which strays as far on every seal. docs/tried/judge.md.
   */
  sameMm: [0.005, 0.01, 0.02],
  sameUpToMm: 45,
  copyMm: [0.03, 0.046, 0.07, 0.11, 0.17, 0.26, 0.41, 0.64, 1],
  /** How many times as large the errors of places may be as worked out: known to a factor only. docs/judge.md. */
  errorScales: [0.6, 0.85],
  /** Share of accidents expected, and with the weight of how many patches. */
  accidents: { outliers: 0.08, outlierWeight: 30 },
  /** Under another legend any share of the patches may be absent. */
  otherLegend: { outliers: 0.5, outlierWeight: 2 },
  /** Sectors left out in turn. */
  sectors: 8,
  /** The motif's places lie within so much of the face's size of its middle: legends lie farther out. */
  middle: 0.3,
  /** Fewer in the middle than so many tell nothing of a motif. */
  leastInMiddle: 6,
};

export type RivalOptions = typeof rivalDefaults;

/** What the places of one matrix scatter by on an image of that size, mm. */
export const oneMatrixMm = ({ sizeMm }: WeighedPlaces, { sameMm, sameUpToMm }: RivalOptions): number[] =>
  sameMm.map((scatterMm) => scatterMm * Math.max(1, sizeMm / sameUpToMm));
