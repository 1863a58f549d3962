import { heldOut } from '../../judge/index.ts';
import { micrometres } from './numbers.ts';

/** What the strength rests on, and how often it misled: printed in every record and on every page. */
export function populationWords(figures = heldOut): string {
  const { pairs, same, sameSupported, wrong, supportedCopyOffMm, handCopies, handCopiesOtherDesign } = figures;
  return [
    'The score compares how likely the measured places are under one matrix and under a mixture of its rivals; nothing in it was learnt from pairs of known answer, its thresholds were chosen on simulated seals, on casts of two coins and on ten pairs made by others.',
    `On ${pairs} simulated pairs of a second generator, named before they were scored, ${sameSupported} of ${same} of one matrix were called supported, and ${wrong} answers were wrong: a copy ${micrometres(supportedCopyOffMm)} out of place was supported, a later state and a legend cut again were called against, another such legend another design; another design was also said of ${handCopiesOtherDesign} of ${handCopies} copies by hand, whose design is the same. Four limits were set after that, so no rate of the rules as they stand is known.`,
    'Those pairs are computed: the counts hold for their like, and for no real seal until known pairs of real seals are scored.',
  ].join(' ');
}
