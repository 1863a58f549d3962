import type { Face } from '../face/index.ts';
import { type Fit, modelOf } from '../fit/index.ts';
import { overCopyBesideBlow } from './besideBlow.ts';
import { evidenceDefaults } from './evidenceDefaults.ts';
import { placesExchanged } from './exchange.ts';
import { gate } from './gate.ts';
import type { Landmark } from './landmarks.ts';
import { type MeasuredPlaces, measurePlaces } from './measure.ts';
import { otherDesignGates } from './otherDesign.ts';
import { type Weighed, weighSeen } from './rivals.ts';
import { rivalTurns, withRivalsTold } from './rivalTurns.ts';
import { spokenAgainst } from './speaksAgainst.ts';
import type { Finding, Gate } from './types.ts';

export { evidenceDefaults } from './evidenceDefaults.ts';
export type { GateCode } from './types.ts';

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
  const weighed = weighSeen(places);
  const fitted = weighed && fittedGates(fit, places, weighed, struckTwice, options);
  const gates = fitted ? withRivalsTold(fitted, reference, subject, fit, weighed, options, given) : [];
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

/**
 * The same evidence with a second blow seen or not. A copyist's strokes beside the matrix's look like one: where the answer hangs on it, it stands in
 * the way only if what the places are off along a blow is what speaks against one matrix.
 */
export function withStrike(evidence: PairEvidence, seen: boolean): PairEvidence {
  const struckTwice = seen && !(hangsOnStrike(evidence) && speaksBesideBlow(evidence));
  const gates = evidence.gates.map((one) =>
    isStrike(one) ? gate(one.group, one.code, struckTwice ? 1 : 0, one.bound, one.limit) : one,
  );
  return { ...evidence, gates, finding: findingOf(gates) };
}

/** Moderately at least: of the blow itself only the direction is taken from what it did. */
const speaksBesideBlow = ({ places, weighed }: PairEvidence): boolean =>
  !!(places && weighed) && overCopyBesideBlow(places, weighed) <= -strengthDefaults.moderate;

export function fittedGates(
  fit: Fit,
  places: MeasuredPlaces,
  weighed: Weighed,
  struckTwice: boolean,
  options: typeof evidenceDefaults,
): Gate[] {
  const rivals = (share: number): number => rivalTurns(fit, share).length;
  const { score, interval, overLegendAnew } = weighed;
  const firm = interval[0] >= options.firmWithout;
  const { overCopy, overCopyMost, motif, legendAnew, whole, leastWhole } = spokenAgainst(places, weighed, options);
  const against = places.pointsAcross < options.finePoints ? options.againstCoarse : options.against;
  return [
    gate('support', 'scoreFor', score, 'atLeast', firm ? options.supportFirm : options.support),
    gate('support', 'leastWithoutASector', interval[0], 'atLeast', options.supportWithout),
    gate('support', 'places', places.seen.length, 'atLeast', firm ? options.leastPlacesFirm : options.leastPlaces),
    gate('support', 'outliers', weighed.best.epsilon, 'atMost', options.mostOutliers),
    ...(overLegendAnew === null ? [] : [gate('support', 'overLegendAnew', overLegendAnew, 'atLeast', 0)]),
    gate('support', 'overlap', fit.overlap, 'atLeast', options.leastOverlap),
    gate('support', 'rivalTurns', rivals(options.rivalShare), 'atMost', 0),
    gate('support', 'mirroredFile', fit.mirrored ? 1 : 0, 'atMost', 0),
    gate('against', 'scoreAgainst', overCopy, 'atMost', against),
    gate('against', 'mostWithoutASector', overCopyMost, 'atMost', options.againstWithout),
    gate('against', 'motifOff', motif, 'atMost', options.motifOff),
    ...(legendAnew === null ? [] : [gate('against', 'legendAnew', legendAnew, 'atMost', 0)]),
    gate('against', 'places', places.seen.length, 'atLeast', options.leastPlacesAgainst),
    gate('against', 'wholePlaces', whole, 'atLeast', leastWhole),
    gate('against', 'overlap', fit.overlap, 'atLeast', options.leastOverlapAgainst),
    gate('against', 'growth', Math.abs(modelOf(fit, 'oneScale').scale - 1), 'atMost', options.mostGrowth),
    gate('against', 'rivalTurns', rivals(options.rivalEqual), 'atMost', 0),
    gate('against', 'struckTwice', struckTwice ? 1 : 0, 'atMost', 0),
  ];
}
