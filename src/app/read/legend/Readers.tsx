import { useRef } from 'react';
import { settle } from '../../state/store.ts';
import { useScan } from '../state/current.ts';
import { leaveOut, nameReader, openReading, putAside, takeUp } from '../state/readers.ts';
import { setRead, useRead } from '../state/readStore.ts';
import { ComparedReadings } from './ComparedReadings.tsx';

/** Who reads; readings put aside unseen, so that two read blind; how two of them stand letter by letter. */
export function Readers() {
  const { scan, legend } = useScan();
  const comparedWith = useRead((state) => state.comparedWith);
  const file = useRef<HTMLInputElement>(null);
  if (!scan) return null;
  const { transcription, reader = '', aside = [] } = legend;
  const empty = transcription.items.length === 0;
  const other = comparedWith === null ? undefined : aside[comparedWith];
  return (
    <>
      <h3>Readers</h3>
      <p>
        <label>
          <span className="soft">Read by </span>
          <input
            type="text"
            value={reader}
            placeholder="name"
            onChange={(event) => nameReader(scan.id, event.target.value)}
            onBlur={settle}
          />
        </label>
      </p>
      <p className="key-row">
        {!empty && (
          <button type="button" className="word plain" onClick={() => putAside(scan.id)}>
            put aside, for another to read blind
          </button>
        )}
        <button type="button" className="word plain" onClick={() => file.current?.click()}>
          open a reading saved as TEI
        </button>
        <input
          ref={file}
          className="unseen"
          type="file"
          accept=".xml,application/tei+xml,application/xml"
          tabIndex={-1}
          aria-label="A reading saved as TEI"
          onChange={(event) => {
            const [chosen] = event.target.files ?? [];
            event.target.value = '';
            if (chosen) void openReading(scan.id, chosen);
          }}
        />
      </p>
      {aside.length > 0 && (
        <ul className="aside-readings">
          {aside.map(({ name }, k) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: two readings may have one name
            <li key={k}>
              <span>Reading of {name}, put aside.</span>{' '}
              <span className="key-row">
                {!empty && (
                  <button
                    type="button"
                    className="word"
                    aria-pressed={comparedWith === k}
                    onClick={() => setRead({ comparedWith: comparedWith === k ? null : k })}
                  >
                    compare
                  </button>
                )}
                <button type="button" className="word" onClick={() => takeUp(scan.id, k)}>
                  take up
                </button>
                <button type="button" className="word" onClick={() => leaveOut(scan.id, k)}>
                  leave out
                </button>
              </span>
            </li>
          ))}
        </ul>
      )}
      {aside.length > 0 && empty && <p className="soft">Read on your own first; then the two can be compared.</p>}
      {other && !empty && <ComparedReadings other={other} />}
    </>
  );
}
