/**
 * The simulated pairs that the score was set on, and how it did on others (new seeds, new motifs): docs/judge.md, where the
 * tables stand and the populations are described. A test holds the two together.
 */
export const population = {
  same: 500,
  different: 2032,
  heldOut: {
    same: 333,
    sameSupported: 284,
    sameAgainst: 0,
    different: 384,
    handCopies: 165,
    differentSupported: 0,
    differentAgainst: 151,
  },
} as const;

/** Upper 95 % bound of a rate that was seen not once in n pairs: 1 − 0.05^(1/n). */
export const upperBoundOfNone = (n: number): number => 1 - 0.05 ** (1 / n);

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const rate = (seen: number, n: number): string =>
  `${seen} of ${n}${seen === 0 ? ` (upper 95 % bound ${percent(upperBoundOfNone(n))})` : ` (${percent(seen / n)})`}`;

/** What the strength rests on, and how often it misled: printed in every record and on every page. */
export function populationWords({ same, different, heldOut } = population): string {
  const { sameSupported, sameAgainst, differentSupported, differentAgainst, handCopies } = heldOut;
  return [
    `The score was set on ${same} simulated pairs of one matrix and ${different} of different ones.`,
    `On pairs that it had not seen, of different matrices (${handCopies} of them copies by hand) ${rate(differentSupported, heldOut.different)} were called supported and ${differentAgainst} against; of one matrix or a copy by moulding ${rate(sameSupported, heldOut.same)} were called supported and ${rate(sameAgainst, heldOut.same)} against; the rest stayed undecided.`,
    'Those pairs are computed, of 20 to 100 % of the face and of every degree of wear: the rates hold for their like, and for no real seal until known pairs of real seals are scored.',
  ].join(' ');
}
