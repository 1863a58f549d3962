import { describe, expect, it } from 'vitest';
import type { FitModel } from '../../src/core/fit/index.ts';
import { evidenceDefaults, findingOf, fittedGates } from '../../src/core/judge/gates.ts';
import type { MeasuredPlaces } from '../../src/core/judge/measure.ts';
import type { Weighed } from '../../src/core/judge/rivals.ts';
import { fitWith } from './fitWith.ts';

/** What the gates of a fitted pair look at. */
interface Seen {
  readonly score: number;
  readonly least: number;
  readonly most: number;
  readonly motif: number;
  readonly legendAnew: number | null;
  readonly overLegendAnew: number | null;
  readonly places: number;
  readonly outliers: number;
  readonly overlap: number;
  readonly patch: number;
  readonly pointsAcross: number;
  readonly scale: number;
  /** Significance of a rival turn as a share of the best one's. */
  readonly rival: number;
  readonly mirrored: boolean;
  readonly struckTwice: boolean;
  /** Places between holes, with a third of their patch. */
  readonly inPieces: number;
  /** How far the places lie off where one matrix has them, mm. */
  readonly wholeOffMm: number;
}

/** To and fro, so that no smooth flow explains it. */
const shiftOf = (i: number, offMm: number) => ({ dx: offMm * Math.cos(2.4 * i), dy: offMm * Math.sin(2.4 * i) });

function findingFrom(seen: Seen): string {
  const correlation = 0.8;
  const fit = fitWith({
    overlap: seen.overlap,
    score: correlation,
    mirrored: seen.mirrored,
    models: [{ model: 'oneScale', scale: seen.scale } as unknown as FitModel],
    rivalTurns: seen.rival > 0 ? [{ turnDeg: 90, score: Math.tanh(seen.rival * Math.atanh(correlation)) }] : [],
  });
  const covariance = [1e-4, 0, 1e-4];
  const places = {
    seen: Array.from({ length: seen.places }, (_, i) => ({
      whole: i < seen.inPieces ? 0.3 : seen.patch,
      doubt: 0.03,
      covariance,
      x: (i % 8) - 4,
      y: Math.floor(i / 8) - 4,
      ...shiftOf(i, seen.wholeOffMm),
    })),
    absent: [],
    sizeMm: 16,
    middle: [0, 0],
    windowMm2: 1,
    share: 1,
    spacingMm: 0,
    pointsAcross: seen.pointsAcross,
  } as unknown as MeasuredPlaces;
  const weighed = {
    score: seen.score,
    interval: [seen.least, seen.score],
    overCopy: seen.score,
    overCopyMost: seen.most,
    motif: seen.motif,
    legendAnew: seen.legendAnew,
    overLegendAnew: seen.overLegendAnew,
    best: { epsilon: seen.outliers },
  } as unknown as Weighed;
  return findingOf(fittedGates(fit, places, weighed, seen.struckTwice, evidenceDefaults));
}

const plain = { places: 60, outliers: 0.1, overlap: 0.9, patch: 0.9, pointsAcross: 150, scale: 0.98, rival: 0 };
const sound = { ...plain, mirrored: false, struckTwice: false, inPieces: 0, wholeOffMm: 0 };
const supported: Seen = { ...sound, score: 6, least: 4, most: 7, motif: 3, legendAnew: null, overLegendAnew: null };
const against: Seen = { ...sound, score: -6, least: -7, most: -4, motif: -3, legendAnew: null, overLegendAnew: null };

const carried = { least: 1.74 };
const firm = { least: 1.75 };

/** Limits as docs/judge.md prints them: the last value that passes and the first that does not. */
const ofSupport: ReadonlyArray<readonly [string, Partial<Seen>, Partial<Seen>]> = [
  ['the score', { ...carried, score: 2.75 }, { ...carried, score: 2.74 }],
  ['… where every sector may be left out', { ...firm, score: 2 }, { ...firm, score: 1.99 }],
  ['the least without a sector', { least: 1 }, { least: 0.99 }],
  ['places', { ...carried, places: 12 }, { ...carried, places: 11 }],
  ['places where every sector may be left out', { ...firm, places: 9 }, { ...firm, places: 8 }],
  ['outliers', { outliers: 0.35 }, { outliers: 0.351 }],
  ['a legend cut anew', { overLegendAnew: 0 }, { overLegendAnew: -0.01 }],
  ['overlap', { overlap: 0.3 }, { overlap: 0.299 }],
  ['rival turns', { rival: 0.749 }, { rival: 0.751 }],
  ['a mirrored file', { mirrored: false }, { mirrored: true }],
];

const ofAgainst: typeof ofSupport = [
  ['the score', { score: -1.5 }, { score: -1.49 }],
  ['the score of coarse scans', { pointsAcross: 99, score: -2.5 }, { pointsAcross: 99, score: -2.49 }],
  ['what counts as coarse', { pointsAcross: 100, score: -2 }, { pointsAcross: 99, score: -2 }],
  ['the most without a sector', { most: 0 }, { most: 0.01 }],
  ['the motif', { motif: -0.7 }, { motif: -0.69 }],
  ['places', { places: 16 }, { places: 15 }],
  ['a legend cut anew', { legendAnew: 0 }, { legendAnew: 0.01 }],
  ['half of the places in their patches', { patch: 0.75 }, { patch: 0.749 }],
  ['half of the places in pieces', { inPieces: 29 }, { inPieces: 31 }],
  ['whole places that speak for themselves', { inPieces: 40, wholeOffMm: 0.2 }, { inPieces: 40, wholeOffMm: 0.005 }],
  ['… twelve of them', { inPieces: 48, wholeOffMm: 0.2 }, { inPieces: 49, wholeOffMm: 0.2 }],
  ['overlap', { overlap: 0.4 }, { overlap: 0.399 }],
  ['growth', { scale: 1.0999 }, { scale: 1.1001 }],
  ['shrinking', { scale: 0.9001 }, { scale: 0.8999 }],
  ['rival turns', { rival: 0.899 }, { rival: 0.901 }],
  ['a second strike', { struckTwice: false }, { struckTwice: true }],
];

describe('the limits of the gates', () => {
  it.each(ofSupport)('for support: %s', (_, passes, fails) => {
    expect(findingFrom({ ...supported, ...passes })).toBe('supported');
    expect(findingFrom({ ...supported, ...fails })).toBe('undecided');
  });

  it.each(ofAgainst)('against: %s', (_, passes, fails) => {
    expect(findingFrom({ ...against, ...passes })).toBe('against');
    expect(findingFrom({ ...against, ...fails })).toBe('undecided');
  });
});
