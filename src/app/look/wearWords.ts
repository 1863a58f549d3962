import { type WearState, type WearZone, zoneToldFrom } from '../../core/condition/index.ts';
import type { WornPart } from '../state/store.ts';

export const wearWords: Readonly<Record<WearState, string>> = {
  sharp: 'sharp',
  rubbed: 'rubbed',
  flattened: 'flattened',
  notFilled: 'not filled',
  clogged: 'clogged',
  lost: 'lost',
  added: 'added to',
  blurred: 'blurred',
  cannotJudge: 'cannot be judged',
};

/** A zone's state; where its cause cannot be told from another, that it lies lower and no more. */
export const zoneWords = ({ state, confidence }: Pick<WearZone, 'state' | 'confidence'>): string =>
  confidence !== undefined && confidence < zoneToldFrom ? 'lower than the reference' : wearWords[state];

export const partWords = ({ zone, state }: WornPart): string => (state ? `${zone}: ${wearWords[state]}` : zone);
