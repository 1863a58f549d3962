import { stateToday, type WearState, type withdrawnStates } from '../../condition/index.ts';

export const modelPhrase = { rigid: 'rigid', oneScale: 'one scale', smoothWarp: 'smooth warp' } as const;

const statePhrase: Readonly<Record<Exclude<WearState, 'lower'>, string>> = {
  sharp: 'sharp',
  clogged: 'clogged',
  lost: 'lost',
  added: 'added',
  blurred: 'blurred by the scan',
  cannotJudge: 'cannot judge',
};

/** The state of a zone in a phrase. */
export function zonePhrase(state: WearState | (typeof withdrawnStates)[number], than: string): string {
  const today = stateToday(state);
  return today === 'lower' ? `lower than the ${than}` : statePhrase[today];
}

/** Clock hour as it is said: 1.77 hours is nearest to 2, and 0 is 12. */
export const clockHour = (hour: number): number => ((Math.round(hour) + 11) % 12) + 1;

/** True where a file's name says that it is a simulated sample. */
export const saysSimulated = (name: string): boolean => /simulated/i.test(name);
