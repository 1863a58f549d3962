import { zoneToldFrom } from '../../condition/index.ts';
import { percentWords } from './numbers.ts';

export const modelPhrase = { rigid: 'rigid', oneScale: 'one scale', smoothWarp: 'smooth warp' } as const;

export const statePhrase: Record<string, string> = {
  sharp: 'sharp',
  rubbed: 'rubbed',
  flattened: 'flattened',
  notFilled: 'not filled',
  clogged: 'clogged',
  lost: 'lost',
  added: 'added',
  blurred: 'blurred by the scan',
  cannotJudge: 'cannot judge',
};

/** The state of a zone in a phrase; where its cause cannot be told from another, that it lies lower and no more. */
export function zonePhrase(
  { state, confidence }: { readonly state: string; readonly confidence?: number | undefined },
  than: string,
): string {
  if (confidence === undefined) return statePhrase[state];
  return confidence < zoneToldFrom
    ? `lower than the ${than}`
    : `${statePhrase[state]} (${percentWords(confidence)} of what is lower)`;
}

/** Clock hour as it is said: 1.77 hours is nearest to 2, and 0 is 12. */
export const clockHour = (hour: number): number => ((Math.round(hour) + 11) % 12) + 1;

/** True where a file's name says that it is a simulated sample. */
export const saysSimulated = (name: string): boolean => /simulated/i.test(name);
