import type { Face, Sense } from './face/index.ts';
import type { Fit } from './fit/index.ts';
import { askedOf } from './judge/index.ts';

interface Pair<Side> {
  readonly reference: Side;
  readonly subject: Side;
}

/**
 * A fitted pair in the senses that both faces and the fit speak for: two that fit as they lie are of one sense, two that fit turned over are of
 * both, and the surer of the two says which. So what is measured, drawn and asked of a pair goes by one reading. What was stated stays.
 */
export function settleSenses<Side extends { readonly face: Face }>(
  pair: Pair<Side>,
  fit: Pick<Fit, 'found' | 'turnedOver' | 'mirrored'>,
): Pair<Side> {
  const { senses } = askedOf(pair.reference.face, pair.subject.face, fit);
  return senses ? { reference: inSense(pair.reference, senses[0]), subject: inSense(pair.subject, senses[1]) } : pair;
}

function inSense<Side extends { readonly face: Face }>(side: Side, sense: Sense): Side {
  const { face } = side;
  if (face.sense === sense || face.senseFrom === 'stated') return side;
  return { ...side, face: { ...face, sense, senseConfidence: 1 - face.senseConfidence } };
}
