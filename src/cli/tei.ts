import { basename } from 'node:path';
import { fromTei, readerOfTei, type Transcription, validateTranscription } from '../core/read/index.ts';
import { transcriptionWords } from '../core/report/words/index.ts';
import { ScanError } from '../core/scan/index.ts';
import { readBytes } from './files.ts';

/** A transcription from a TEI file, under its reader's name or the file's. Throws ScanError for what is none. */
export function readTei(path: string): { readonly name: string; readonly transcription: Transcription } {
  const xml = new TextDecoder().decode(readBytes(path));
  try {
    const transcription = fromTei(xml);
    const [issue] = validateTranscription(transcription);
    if (issue) throw new RangeError(transcriptionWords(issue));
    return { name: readerOfTei(xml) ?? basename(path), transcription };
  } catch (error) {
    const why = error instanceof RangeError ? error.message : 'It cannot be read as a transcription in TEI.';
    throw new ScanError('unsupported', `${path}: ${why}`);
  }
}
