import type { TranscriptionFault } from '../../read/index.ts';

/** What is wrong with a transcription, in a sentence. */
export function transcriptionWords(fault: TranscriptionFault): string {
  switch (fault.code) {
    case 'shape':
      return `${fault.path || 'transcription'}: ${fault.message}`;
    case 'noSource':
      return 'A supplied letter names its source.';
    case 'needlessSource':
      return 'Only a supplied letter has a source.';
    case 'unknownSource':
      return `There is no source ${fault.id}.`;
    case 'otherSource':
      return `The source ${fault.id} is not a ${fault.wanted}.`;
    case 'notOneLetter':
      return `"${fault.text}" cannot stand as one letter.`;
    case 'openLigature':
      return 'A ligature goes on to a letter.';
    case 'tracesInARow':
      return 'Two stretches of traces in a row are one.';
    case 'estimateOfUnknown':
      return 'An unknown number cannot be an estimate.';
    case 'followsNoLetter':
      return 'An expansion or abbreviation mark follows a letter of its own word.';
    case 'expansionsInARow':
      return 'Two expansions in a row are one.';
    case 'bracketInExpansion':
      return 'An expansion holds no brackets or line breaks.';
    case 'dashesAsExpansion':
      return 'An unsolved abbreviation has no expansion.';
    case 'spaceRoundExpansion':
      return 'An expansion begins and ends with a letter.';
    case 'sameSourceId':
      return 'Two sources have the same id.';
  }
}
