/**
 * The simulated pairs that the frozen method was scored on once, named before (docs/judge.md): recipes 2640 to 2738 of
 * the second generator.
 */
export const heldOut = { pairs: 99, same: 36, sameSupported: 21, wrong: 4 } as const;

/** What the strength rests on, and how often it misled: printed in every record and on every page. */
export const populationWords = ({ pairs, same, sameSupported, wrong } = heldOut): string =>
  [
    'The score compares how likely the measured places are under one matrix and under a mixture of its rivals; nothing in it was learnt from pairs of known answer, its thresholds were chosen on simulated seals, on casts of two coins and on ten pairs made by others.',
    `On ${pairs} simulated pairs of a second generator, named before they were scored, ${sameSupported} of ${same} of one matrix were called supported, and ${wrong} answers were wrong: a copy 42 µm out of place was supported, a later state and a legend cut again were called against, another such legend another design; another design was also said of 4 of 36 copies by hand, whose design is the same. Four limits were set after that, so no rate of the rules as they stand is known.`,
    'Those pairs are computed: the counts hold for their like, and for no real seal until known pairs of real seals are scored.',
  ].join(' ');
