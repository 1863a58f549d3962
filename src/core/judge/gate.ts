import type { Gate, GateCode } from './types.ts';

/** One threshold with the number held against it. */
export const gate = (
  group: Gate['group'],
  code: GateCode,
  value: number,
  bound: Gate['bound'],
  limit: number,
): Gate => ({
  group,
  code,
  value,
  bound,
  limit,
  passed: bound === 'atLeast' ? value >= limit : value <= limit,
});
