/**
 * The simulated pairs that the score was set on, and how it did on others (new seeds, new motifs): docs/judge.md, where the
 * tables stand and the populations are described. A test holds the two together.
 */
export const population = {
  same: 500,
  different: 2032,
  handCopies: 306,
  stockMotifs: 204,
  heldOut: {
    same: 383,
    sameSupported: 331,
    sameAgainst: 0,
    different: 439,
    handCopies: 189,
    differentSupported: 0,
    differentAgainst: 176,
    cllr: [0.221, 0.099],
  },
} as const;

/** Upper 95 % bound of a rate that was seen not once in n pairs: 1 − 0.05^(1/n). */
export const upperBoundOfNone = (n: number): number => 1 - 0.05 ** (1 / n);

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const rate = (seen: number, n: number): string =>
  `${seen} of ${n}${seen === 0 ? ` (upper 95 % bound ${percent(upperBoundOfNone(n))})` : ` (${percent(seen / n)})`}`;

/** What the strength rests on, and how often it misled: printed in every record and on every page. */
export function populationWords({ same, different, handCopies, stockMotifs, heldOut } = population): string {
  const { sameSupported, sameAgainst, differentSupported, differentAgainst, cllr } = heldOut;
  return [
    `The score was set on ${same} simulated pairs of one matrix or a copy by moulding and ${different} of different ones: ${handCopies} cut again by hand, ${stockMotifs} with the same motif and another legend, the rest unrelated.`,
    `On held-out pairs of different matrices (${heldOut.handCopies} of them copies by hand) ${rate(differentSupported, heldOut.different)} were called supported and ${differentAgainst} against; of one matrix or a copy by moulding ${rate(sameSupported, heldOut.same)} were called supported and ${rate(sameAgainst, heldOut.same)} against; the rest stayed undecided. C_llr of the score (0: nothing lost, 1: no information) was ${cllr[0]} on their coarse half, after which three rules of the finding were made, and ${cllr[1]} on their fine half.`,
    'Those pairs are computed, of 20 to 100 % of the face and of every degree of wear: the rates hold for their like, and for no real seal until known pairs of real seals are scored.',
  ].join(' ');
}
