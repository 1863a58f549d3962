/**
 * The simulated pairs that the method as it stands was scored on once, named before (docs/judge.md): recipes 5016 to 5081 and 5115
 * to 5147 of the second generator. The wrong answers: copies by hand that were supported, the farthest so far out of
 * place. Far copies: from 60 µm on, and how many of them were called against or another design.
 */
export const heldOut = {
  pairs: 99,
  same: 36,
  sameSupported: 30,
  wrong: 2,
  supportedCopyOffMm: 0.038,
  handCopies: 36,
  handCopiesOtherDesign: 0,
  farCopies: 27,
  farCopiesDenied: 16,
} as const;
