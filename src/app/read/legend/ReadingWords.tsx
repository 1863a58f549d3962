import { useId } from 'react';
import { diplomatic, expanded, type Transcription, toLeiden, validateTranscription } from '../../../core/read/index.ts';
import { transcriptionWords } from '../../../core/report/words/index.ts';
import { download } from '../../state/download.ts';
import { settle, useDocument } from '../../state/store.ts';
import { transcribe } from '../state/acts.ts';
import { languageOf } from '../state/card.ts';
import { useScan } from '../state/current.ts';
import { fileStem, leidenFile, teiFile } from './textFiles.ts';

/** What is read: as Leiden prints it, as it stands, in full, translated; and its files. */
export function ReadingWords() {
  const { scan, legend } = useScan();
  const field = useId();
  const draft = useDocument((document) => (scan ? document.read.cards[scan.id] : undefined));
  if (!scan) return null;
  const { transcription, reader } = legend;
  if (transcription.items.length === 0)
    return (
      <>
        <h3>Reading</h3>
        <p>
          Click the strip at the first letter and type along it; a comma writes the pellet. The keys for what is
          doubtful, lost or supplied stand below.
        </p>
      </>
    );
  const print = toLeiden(transcription);
  const faults = validateTranscription(transcription).map((issue) => [issue.index, transcriptionWords(issue)] as const);
  const save = (form: 'tei' | 'text'): void =>
    form === 'tei'
      ? download(
          new Blob([teiFile(transcription, scan, languageOf(draft ?? {}), reader)], { type: 'application/tei+xml' }),
          `${fileStem(scan)}.xml`,
        )
      : download(new Blob([leidenFile(transcription, scan)], { type: 'text/plain' }), `${fileStem(scan)}.txt`);
  return (
    <>
      <h3>Reading</h3>
      <p className="read-print">{print.text}</p>
      <p className="read-print pale">
        <i>{expanded(transcription)}</i>
      </p>
      {faults.map(([index, words]) => (
        <p key={`${index} ${words}`} className="fault">
          {words}
        </p>
      ))}
      <p>
        <label className="soft" htmlFor={field}>
          Translation
        </label>
        <textarea
          id={field}
          rows={2}
          value={transcription.translation?.text ?? ''}
          onChange={(event) => translate(scan.id, transcription, event.target.value)}
          onBlur={settle}
        />
      </p>
      <details className="apparatus">
        <summary>As it stands, and apparatus</summary>
        <p>{diplomatic(transcription)}</p>
        {print.apparatus
          .filter((line) => !line.startsWith('mm along'))
          .map((line) => (
            <p key={line} className="soft">
              {line}
            </p>
          ))}
      </details>
      <p className="seats">
        <button type="button" className="word plain" disabled={faults.length > 0} onClick={() => save('tei')}>
          save as TEI
        </button>
        <button type="button" className="word plain" onClick={() => save('text')}>
          save as text
        </button>
      </p>
    </>
  );
}

function translate(scanId: string, transcription: Transcription, text: string): void {
  const { translation: _old, ...rest } = transcription;
  const next = text === '' ? rest : { ...rest, translation: { language: 'en', text } };
  transcribe(scanId, 'Translation', next, undefined, `translation ${scanId}`);
}
