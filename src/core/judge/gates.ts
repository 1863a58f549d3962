import { type Face, findOutline, longSide } from '../face/index.ts';
import { type Fit, modelOf, reachOf } from '../fit/index.ts';
import { median } from '../geometry/index.ts';
import { clearSignificance, onlyNoise, reliefSpread, reliefTail, turnByTurn } from './clear.ts';
import { placesExchanged } from './exchange.ts';
import type { Landmark } from './landmarks.ts';
import { type MeasuredPlaces, measurePlaces } from './measure.ts';
import { type Weighed, weigh } from './rivals.ts';
import type { Finding, Gate, GateCode } from './types.ts';
import { isWhole } from './whole.ts';

export type { GateCode } from './types.ts';

export const evidenceDefaults = {
  support: 2,
  supportWithout: 1,
  /** … where the errors of the places are larger than this, mm: copies of 30 to 60 µm come near. */
  coarseErrorMm: 0.03,
  supportCoarse: 2.5,
  /** Against, over a copy by hand: of all places, and no sector left out turns it round. */
  against: -1.5,
  againstWithout: 0,
  /** … of coarser scans than so many points across: their places err by more than is stated. */
  finePoints: 100,
  againstCoarse: -3.5,
  /** Places seen on both, and the share of them that lies nowhere near where the others put it. */
  leastPlaces: 12,
  /** … fewer where no sector carries what speaks for one matrix. */
  leastPlacesFirm: 9,
  firmWithout: 1.5,
  mostOutliers: 0.35,
  leastOverlap: 0.3,
  /** Against needs a fit beyond doubt: more places, more overlap, a size that casting and shrinking give. */
  leastPlacesAgainst: 16,
  /** A copyist puts everything near its place; where much is nowhere near, a legend was cut anew, on whichever matrix. */
  mostOutliersAgainst: 0.3,
  leastOverlapAgainst: 0.4,
  mostGrowth: 0.1,
  /** Other design: the smaller face is at least so large a part of the greater; a smaller piece might lie anywhere on it. */
  leastAreaShare: 0.15,
  /** Against: the motif, in the middle of the face, must itself be off its places. */
  motifOff: -1,
  /** … and the middle place have so much of its patch: what stands between holes is caught by their edges. */
  leastPatch: 0.75,
  /** A rival turn that reaches this share of the best one's significance. */
  rivalShare: 0.75,
  /** … that leaves open which of the two is right, when something is spoken against. */
  rivalEqual: 0.9,
  /** Nothing corresponds: the best place reaches at most this share of what two faces of one matrix would. docs/judge.md. */
  mostReached: 0.55,
  log10Chance: -4,
  /** Turn by turn: the best of all is no more than independent cells reach, and all together are this unlikely under one design. docs/judge.md. */
  mostReachedAnywhere: 5,
  mostOneDesign: 0.1,
  /** … where only what is missing of them keeps the faces from being clear: fine enough scans, relief all over both. */
  leastSpreadTurnByTurn: 0.15,
  leastPointsTurnByTurn: 100,
  /** … not carried by a few deep pits: two faces of one matrix keep less of their correlation then than is reckoned with. */
  mostTailTurnByTurn: 3.7,
  /** … and neither so much the smaller that it might lie where the other has its gap. */
  leastAreaTurnByTurn: 0.5,
  /** Median over 90 % quantile of the relief: far less where most of what was taken for the face is bare. */
  leastSpread: 0.13,
  /** 99 % over 90 % quantile: 1.5 to 5 on faces, 20 to 60 on a table where only the end of what lies on it stands out. */
  mostTail: 8,
  /** What a reflection reaches nearly as well is borders and form; a true fit stands above it. */
  overMirror: 1.15,
};

/** Steps of the strength: of the score for one matrix or against it; of how clear both faces are, for another design. */
export const strengthDefaults = { moderate: 4, strong: 8, clearModerate: 1.25, clearStrong: 1.5 };

export interface PairEvidence {
  readonly finding: Finding;
  readonly gates: readonly Gate[];
  readonly places: MeasuredPlaces | null;
  readonly weighed: Weighed | null;
}

/**
 * Weighs a fitted pair, or looks whether the faces of one that was not fitted are clear to one another. On the grid of the face that was
 * fitted to, whichever of the two the caller calls the reference, so that both orders of two files rest on the same numbers;
 * landmarks `given` by hand are places of the caller's reference and are measured there.
 */
export function pairEvidence(
  reference: Face,
  subject: Face,
  fit: Fit,
  struckTwice = false,
  given?: readonly Landmark[],
  options = evidenceDefaults,
): PairEvidence {
  if (!fit.asFitted || given) return evidenceAsFitted(reference, subject, fit, struckTwice, given, options);
  const asFitted = { ...fit.asFitted, found: fit.found };
  const found = evidenceAsFitted(subject, reference, asFitted, struckTwice, undefined, options);
  const { places, weighed } = found;
  return places
    ? { ...found, ...placesExchanged(subject, reference, modelOf(asFitted, 'smoothWarp'), places, weighed) }
    : found;
}

function evidenceAsFitted(
  reference: Face,
  subject: Face,
  fit: Fit,
  struckTwice: boolean,
  given: readonly Landmark[] | undefined,
  options: typeof evidenceDefaults,
): PairEvidence {
  if (!fit.found) {
    const gates = otherDesignGates(reference, subject, fit, options);
    return { finding: findingOf(gates), gates, places: null, weighed: null };
  }
  const places = measurePlaces(reference, subject, fit, given);
  const weighed =
    places.seen.length >= 6 ? weigh({ ...places, patches: places.seen, absent: places.absent.length }) : null;
  const gates = weighed ? fittedGates(fit, places, weighed, struckTwice, options) : [];
  return { finding: findingOf(gates), gates, places, weighed };
}

/** supported, against or otherDesign where every gate of its group is passed and the group is there; undecided else. */
export function findingOf(gates: readonly Gate[]): Finding {
  const all = (group: Gate['group']): boolean => {
    const own = gates.filter((gate) => gate.group === group);
    return own.length > 0 && own.every(({ passed }) => passed);
  };
  if (all('support')) return 'supported';
  if (all('against')) return 'against';
  return all('otherDesign') ? 'otherDesign' : 'undecided';
}

const isStrike = ({ group, code }: Gate): boolean => group === 'against' && code === 'struckTwice';

/** Whether all that speaks against passes but for a second blow, seen or not. */
export const hangsOnStrike = ({ gates }: PairEvidence): boolean =>
  gates.some(isStrike) && gates.every((one) => one.group !== 'against' || one.passed || isStrike(one));

/** The same evidence with the second blow seen or not. */
export function withStrike(evidence: PairEvidence, struckTwice: boolean): PairEvidence {
  const gates = evidence.gates.map((one) =>
    isStrike(one) ? gate(one.group, one.code, struckTwice ? 1 : 0, one.bound, one.limit) : one,
  );
  return { ...evidence, gates, finding: findingOf(gates) };
}

const fisher = (correlation: number): number => Math.atanh(Math.min(0.999, correlation));

const gate = (group: Gate['group'], code: GateCode, value: number, bound: Gate['bound'], limit: number): Gate => ({
  group,
  code,
  value,
  bound,
  limit,
  passed: bound === 'atLeast' ? value >= limit : value <= limit,
});

export function fittedGates(
  fit: Fit,
  places: MeasuredPlaces,
  weighed: Weighed,
  struckTwice: boolean,
  options: typeof evidenceDefaults,
): Gate[] {
  const rivals = (share: number): number =>
    fit.rivalTurns.filter(({ score }) => fisher(score) > share * fisher(fit.score)).length;
  const errorMm = median(
    places.seen.map(({ covariance: [xx, , yy] }) => Math.sqrt((xx + yy) / 2 + places.spacingMm ** 2)),
  );
  const { score, interval } = weighed;
  const leastFor = interval[0] >= options.firmWithout ? options.leastPlacesFirm : options.leastPlaces;
  return [
    gate(
      'support',
      'scoreFor',
      score,
      'atLeast',
      errorMm > options.coarseErrorMm ? options.supportCoarse : options.support,
    ),
    gate('support', 'leastWithoutASector', interval[0], 'atLeast', options.supportWithout),
    gate('support', 'places', places.seen.length, 'atLeast', leastFor),
    gate('support', 'outliers', weighed.best.epsilon, 'atMost', options.mostOutliers),
    gate('support', 'overlap', fit.overlap, 'atLeast', options.leastOverlap),
    gate('support', 'rivalTurns', rivals(options.rivalShare), 'atMost', 0),
    gate('support', 'mirroredFile', fit.mirrored ? 1 : 0, 'atMost', 0),
    gate(
      'against',
      'scoreAgainst',
      weighed.overCopy,
      'atMost',
      places.pointsAcross < options.finePoints ? options.againstCoarse : options.against,
    ),
    gate('against', 'mostWithoutASector', weighed.overCopyMost, 'atMost', options.againstWithout),
    gate('against', 'motifOff', weighed.motif, 'atMost', options.motifOff),
    gate('against', 'places', places.seen.length, 'atLeast', options.leastPlacesAgainst),
    gate('against', 'outliers', weighed.best.epsilon, 'atMost', options.mostOutliersAgainst),
    gate('against', 'wholePlaces', median(places.seen.map(({ whole }) => whole)), 'atLeast', options.leastPatch),
    gate('against', 'overlap', fit.overlap, 'atLeast', options.leastOverlapAgainst),
    gate('against', 'growth', Math.abs(modelOf(fit, 'oneScale').scale - 1), 'atMost', options.mostGrowth),
    gate('against', 'rivalTurns', rivals(options.rivalEqual), 'atMost', 0),
    gate('against', 'struckTwice', struckTwice ? 1 : 0, 'atMost', 0),
  ];
}

function otherDesignGates(reference: Face, subject: Face, fit: Fit, options: typeof evidenceDefaults): Gate[] {
  const sizeMm = commonSizeOf(reference, subject);
  const whole = [reference, subject].filter(({ image }) => isWhole(findOutline(image, image.mask))).length;
  const area = areaShare(reference, subject);
  const spread = Math.min(reliefSpread(reference, sizeMm), reliefSpread(subject, sizeMm));
  const tail = Math.max(reliefTail(reference, sizeMm), reliefTail(subject, sizeMm));
  const faces = [
    gate('otherDesign', 'oneWhole', whole, 'atLeast', 1),
    gate('otherDesign', 'facesTried', [reference, subject].filter(({ tried }) => tried).length, 'atMost', 0),
    gate('otherDesign', 'areaShare', area, 'atLeast', options.leastAreaShare),
    gate('otherDesign', 'reliefEverywhere', spread, 'atLeast', options.leastSpread),
    gate('otherDesign', 'deepSpots', tail, 'atMost', options.mostTail),
    gate(
      'otherDesign',
      'onlyNoise',
      [reference, subject].filter((face) => onlyNoise(face, sizeMm)).length,
      'atMost',
      0,
    ),
  ];
  const atOnce = clearGates(reference, subject, fit, sizeMm, options);
  const all = (gates: readonly Gate[]): boolean => gates.every(({ passed }) => passed);
  const pointsAcross = sizeMm / Math.max(reference.image.pitch, subject.image.pitch);
  const onlyMissing =
    spread >= options.leastSpreadTurnByTurn &&
    area >= options.leastAreaTurnByTurn &&
    pointsAcross >= options.leastPointsTurnByTurn &&
    fit.significance <= options.mostReachedAnywhere &&
    tail <= options.mostTailTurnByTurn;
  if (all(atOnce) || !all(faces) || !onlyMissing) return [...atOnce, ...faces];
  const atEach = turnGates(reference, subject, fit, sizeMm, options);
  return [...(all(atEach) ? atEach : atOnce), ...faces];
}

/** Clear to one another at every turn, and nothing corresponds. */
function clearGates(a: Face, b: Face, fit: Fit, sizeMm: number, options: typeof evidenceDefaults): Gate[] {
  const need = Math.max(reachOf(fit.chance, options.log10Chance), options.overMirror * fit.chance.mirror);
  const clear = clearSignificance(a, b, sizeMm);
  return [
    gate('otherDesign', 'nothingCorresponds', fit.significance / clear, 'atMost', options.mostReached),
    gate('otherDesign', 'clear', clear, 'atLeast', need),
  ];
}

/** Clear at most turns: what is reached at each is held against what one design would reach there. */
function turnGates(a: Face, b: Face, fit: Fit, sizeMm: number, options: typeof evidenceDefaults): Gate[] {
  const { reached, likelihoodRatio } = turnByTurn(a, b, sizeMm);
  const anywhere = Math.max(reached, fit.significance);
  return [
    gate('otherDesign', 'reachedAnywhere', anywhere, 'atMost', options.mostReachedAnywhere),
    gate('otherDesign', 'oneDesign', likelihoodRatio, 'atMost', options.mostOneDesign),
  ];
}

/** The size that the search scales its bands to: see `searchFaces`. */
const commonSizeOf = (a: Face, b: Face): number =>
  Math.max(Math.min(longSide(a), longSide(b)), 0.65 * Math.max(longSide(a), longSide(b)));

/** Area with data of the smaller image over that of the greater. */
function areaShare(a: Face, b: Face): number {
  const area = ({ image }: Face): number => image.mask.reduce((sum, m) => sum + m, 0) * image.pitch ** 2;
  return Math.min(area(a), area(b)) / Math.max(area(a), area(b));
}
