/**
 * Simulated pairs that the method was scored on once, named before (docs/judge.md): recipes 21,000 to 21,131 of the
 * second generator, by a program that asked for less on coarse scans and, against, for relief at the middle place alone, and looked for each place once. The wrong answers: copies by hand that were supported, the farthest so far out of place. Far copies:
 * from 60 µm on, and how many of them were called against or another design.
 */
export const heldOut = {
  pairs: 132,
  same: 48,
  sameSupported: 32,
  wrong: 3,
  supportedCopyOffMm: 0.046,
  handCopies: 48,
  handCopiesOtherDesign: 0,
  farCopies: 36,
  farCopiesDenied: 19,
} as const;
