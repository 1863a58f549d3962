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

/** Clock hour as it is said: 1.77 hours is nearest to 2, and 0 is 12. */
export const clockHour = (hour: number): number => ((Math.round(hour) + 11) % 12) + 1;

/** True where a file's name says that it is a simulated sample. */
export const saysSimulated = (name: string): boolean => /simulated/i.test(name);
