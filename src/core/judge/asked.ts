import type { Face, Sense } from '../face/index.ts';
import type { Fit } from '../fit/index.ts';

/** madeFrom: a negative and a positive; oneMatrix: two positives; oneParent: two negatives; null: not known. */
export type AskedCode = 'madeFrom' | 'oneMatrix' | 'oneParent' | null;

export interface Asked {
  readonly question: AskedCode;
  /** Which sense each shows, as far as known, and the confidence that it is so and not the other way round. */
  readonly senses: readonly [reference: Sense, subject: Sense] | null;
  readonly confidence: number;
  /** Both kinds were stated and the fit says otherwise: a file is wound the wrong way, or a kind is misstated. */
  readonly statedAgainstFit: boolean;
}

type Side = Pick<Face, 'sense' | 'senseConfidence' | 'senseFrom'>;

/** A user's word is believed, but is no certainty. */
export const statedConfidence = 0.99;

/**
 * What is asked of a pair, from the fit: two faces that fit turned over are a negative and a positive, two that fit as
 * they lie are of one sense, whatever the skew of their heights suggests. Of the two ways that are left, (negative,
 * positive) or the reverse, the likelier one by both confidences: p q against (1 − p)(1 − q). Without a fit the
 * question comes from stated kinds or closed bodies, else it is null.
 */
export function askedOf(reference: Side, subject: Side, fit: Pick<Fit, 'found' | 'turnedOver' | 'mirrored'>): Asked {
  const [a, b] = [intaglioShare(reference), intaglioShare(subject)];
  const known = ({ senseFrom }: Side): boolean => senseFrom !== 'winding';
  const apart = reference.sense !== subject.sense;
  if (!fit.found || fit.mirrored) {
    if (!(known(reference) && known(subject)))
      return { question: null, senses: null, confidence: 0.5, statedAgainstFit: false };
    const senses = [reference.sense, subject.sense] as const;
    const confidence = Math.max(a, 1 - a) * Math.max(b, 1 - b);
    return { question: questionOfSenses(senses), senses, confidence, statedAgainstFit: false };
  }
  const first = a * (fit.turnedOver ? 1 - b : b);
  const second = (1 - a) * (fit.turnedOver ? b : 1 - b);
  const one: Sense = first >= second ? 'intaglio' : 'relief';
  const other: Sense = one === 'intaglio' ? 'relief' : 'intaglio';
  const senses = [one, fit.turnedOver ? other : one] as const;
  const stated = [reference, subject].every(({ senseFrom }) => senseFrom === 'stated');
  return {
    question: questionOfSenses(senses),
    senses,
    confidence: Math.max(first, second) / (first + second),
    statedAgainstFit: stated && apart !== fit.turnedOver,
  };
}

function intaglioShare({ sense, senseConfidence, senseFrom }: Side): number {
  const sure =
    senseFrom === 'stated'
      ? statedConfidence
      : Math.min(statedConfidence, Math.max(1 - statedConfidence, senseConfidence));
  return sense === 'intaglio' ? sure : 1 - sure;
}

const questionOfSenses = ([a, b]: readonly [Sense, Sense]): AskedCode =>
  a !== b ? 'madeFrom' : a === 'relief' ? 'oneMatrix' : 'oneParent';
