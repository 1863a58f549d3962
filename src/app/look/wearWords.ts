import type { WearState } from '../../core/condition/index.ts';
import type { WornPart } from '../state/store.ts';

export const wearWords: Readonly<Record<WearState, string>> = {
  sharp: 'sharp',
  lower: 'lower than a',
  clogged: 'clogged',
  lost: 'lost',
  added: 'added to',
  blurred: 'blurred',
  cannotJudge: 'cannot be judged',
};

export const partWords = ({ zone, state }: WornPart): string => (state ? `${zone}: ${wearWords[state]}` : zone);
