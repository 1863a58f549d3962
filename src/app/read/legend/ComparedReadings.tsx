import { useMemo } from 'react';
import { compareReadings, type ReadPair, type ReadPlace } from '../../../core/read/index.ts';
import { readingsCsv } from '../../../core/report/index.ts';
import { comparedReadingsWords, readingVerdictWords, readPlaceWords } from '../../../core/report/words/index.ts';
import { download } from '../../state/download.ts';
import type { Reading } from '../../state/readDocument.ts';
import { useScan } from '../state/current.ts';
import { setRead } from '../state/readStore.ts';
import { fileStem } from './textFiles.ts';

/** Two readings letter under letter; a place that they do not agree on leads to it on the strip. */
export function ComparedReadings({ other }: { other: Reading }) {
  const { scan, legend } = useScan();
  const { transcription, reader } = legend;
  const compared = useMemo(() => compareReadings(transcription, other.transcription), [transcription, other]);
  if (!scan) return null;
  const names: [string, string] = [reader || 'this reading', other.name];
  const save = (): void =>
    download(new Blob([readingsCsv(compared, names)], { type: 'text/csv' }), `${fileStem(scan)}-readings.csv`);
  return (
    <>
      <p>{comparedReadingsWords(compared)}</p>
      <p className="soft">
        Above {names[0]}, below {names[1]}; marked is what they do not both read alike.
      </p>
      <p className="read-pairs">
        {compared.pairs.map((pair, k) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: places stand in their order and have no other name
          <Pair key={k} pair={pair} />
        ))}
      </p>
      <p>
        <button type="button" className="word plain" onClick={save}>
          save the comparison
        </button>
      </p>
    </>
  );
}

function Pair({ pair }: { pair: ReadPair }) {
  const { one, two, verdict } = pair;
  const words = `${readPlaceWords(one)} above, ${readPlaceWords(two)} below: ${readingVerdictWords(verdict)}`;
  return (
    <button
      type="button"
      className={`read-pair ${verdict}`}
      title={words}
      aria-label={words}
      disabled={!one}
      onClick={() => one && setRead({ pen: { at: one.index + 1, alongMm: one.alongMm ?? 0 } })}
    >
      <span>{glyph(one)}</span>
      <span>{glyph(two)}</span>
    </button>
  );
}

/** As the strip writes it: a dot below for a doubt, brackets for what is lost, a point for traces. */
function glyph(place: ReadPlace | null): string {
  if (!place) return '–';
  if (place.text !== null) return place.doubtful ? `${place.text}\u0323` : place.text;
  return place.missing === 'illegible' ? '.' : '[ ]';
}
