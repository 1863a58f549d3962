import { fromTei, readerOfTei, type Transcription, validateTranscription } from '../../../core/read/index.ts';
import { transcriptionWords } from '../../../core/report/words/index.ts';

/** The most characters that a legend's transcription can have: twenty rings of long texts. */
const most = 2_000_000;

/** A transcription and its reader from a TEI file, or why there is none, in a sentence. */
export function readingOfTei(xml: string): { transcription: Transcription; reader: string | null } | string {
  if (xml.length > most) return 'The file is too long for the reading of a legend.';
  try {
    const transcription = fromTei(xml);
    const [issue] = validateTranscription(transcription);
    return issue ? transcriptionWords(issue) : { transcription, reader: readerOfTei(xml) };
  } catch (error) {
    return error instanceof RangeError ? error.message : 'This cannot be read as a transcription in TEI.';
  }
}
