import { heldOut, heldOutFirst } from '../../judge/index.ts';
import { micrometres } from './numbers.ts';

/** What the strength rests on, and how often it misled: printed in every record and on every page. */
export function populationWords(figures = heldOut, first = heldOutFirst): string {
  const { pairs, same, sameSupported, sameDenied, legendsRecut, legendsRecutDenied, handCopies } = figures;
  const { handCopiesSupported, supportedCopyOffMm, farCopies, farCopiesDenied } = figures;
  return [
    'The score compares how likely the measured places are under one matrix and under a mixture of its rivals; nothing in it was learnt from pairs of known answer, its thresholds were chosen on simulated seals, on casts of two coins and on ten pairs made by others.',
    `On ${pairs} simulated pairs of a second generator, named before they were scored, ${sameSupported} of ${same} of one matrix were called supported and ${sameDenied || 'none'} denied; supported wrongly were copies by hand at most ${micrometres(supportedCopyOffMm)} out of place, ${handCopiesSupported} of ${handCopies}; of ${legendsRecut} legends cut anew on the same matrix ${legendsRecutDenied} were called another matrix or design. Of ${farCopies} copies from 60 µm on ${farCopiesDenied} were called against or another design, nearly all others undecided.`,
    `On ${first.pairs} of the first generator, likewise: ${first.sameSupported} of ${first.same} of one matrix supported and ${first.sameDenied || 'none'} denied, small pieces of an image in a wide cake of wax; of ${first.others} of another matrix, copies from 60 µm on among them, ${first.othersSupported || 'none'} supported.`,
    'Those pairs are computed: the counts hold for their like, and for no real seal until known pairs of real seals are scored.',
  ].join(' ');
}
