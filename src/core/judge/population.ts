/**
 * The simulated pairs that the method as it stands was scored on once, named before (docs/judge.md): recipes 20,000 to 20,131 of the
 * second generator. The wrong answers: copies by hand that were supported, the farthest so far out of place. Far copies:
 * from 60 µm on, and how many of them were called against or another design.
 */
export const heldOut = {
  pairs: 132,
  same: 48,
  sameSupported: 38,
  wrong: 1,
  supportedCopyOffMm: 0.043,
  handCopies: 48,
  handCopiesOtherDesign: 4,
  farCopies: 36,
  farCopiesDenied: 22,
} as const;
