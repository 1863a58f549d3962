import type { Change, ChangeCause } from './types.ts';

/** Below this mean change of height, mm, two instruments that see translucent or shiny wax differently make as much. */
export const causeDefaults = { instrumentBelowMm: 0.06 };

/** Every cause that a change of this direction and shape can have, none before another for being likelier. */
export function causesOf(
  direction: Change['direction'],
  shape: Change['shape'],
  meanMm: number,
  { instrumentBelowMm } = causeDefaults,
): ChangeCause[] {
  if (direction === 'absent') return ['brokenOff', 'notScanned'];
  if (shape === 'line') return direction === 'lowered' ? ['crack', 'scratch'] : ['crackClosed', 'fibre', 'pushedUp'];
  const thin: ChangeCause[] = Math.abs(meanMm) < instrumentBelowMm ? ['instrument'] : [];
  if (direction === 'lowered')
    return [
      'rubbed',
      'chipped',
      'pressed',
      'dirtTaken',
      ...(thin.length > 0 ? (['bloomTaken'] as const) : []),
      'fillTaken',
      ...thin,
    ];
  return [
    'dust',
    'dirt',
    ...(thin.length > 0 ? (['bloom'] as const) : []),
    'consolidant',
    'restored',
    'pushedUp',
    ...thin,
  ];
}
