import { useState } from 'react';
import type { Item, SuppliedFrom, Transcription } from '../../../core/read/index.ts';
import { useDocument } from '../../state/store.ts';
import { transcribe } from '../state/acts.ts';
import { useScan } from '../state/current.ts';
import { setRead } from '../state/readStore.ts';
import { withSource } from '../state/sources.ts';
import type { Desk } from './typing.ts';

/** Where a supplied letter comes from: another object on the plate, a named witness, or somebody's conjecture. */
export function Source({ desk, index, source }: { desk: Desk; index: number; source: SuppliedFrom }) {
  const { scan, legend } = useScan();
  const scans = useDocument((document) => document.scans);
  const [name, setName] = useState('');
  const { transcription } = legend;
  const others = scans.filter(({ id }) => id !== scan?.id).map(({ title }) => title);
  const known = transcription.sources;
  const offered = others.filter((title) => !known.some((one) => one.name === title));
  const choose = (kind: 'witness' | 'person' | 'none', title: string): void => {
    const named =
      kind === 'none'
        ? { transcription, from: { from: 'conjecture' } as const }
        : withSource(transcription, kind, title);
    setRead({ source: named.from });
    transcribe(desk.scanId, 'Source named', sourced(named.transcription, index, named.from));
  };
  return (
    <div>
      <p className="key-row">
        <span className="soft">Supplied from</span>
        <button
          type="button"
          className="word"
          aria-pressed={source.from === 'conjecture' && !source.id}
          onClick={() => choose('none', '')}
        >
          conjecture
        </button>
        {known.map((one) => (
          <button
            key={one.id}
            type="button"
            className="word"
            aria-pressed={source.id === one.id}
            onClick={() => choose(one.kind, one.name)}
          >
            {one.kind === 'person' ? `conjecture by ${one.name}` : one.name}
          </button>
        ))}
        {offered.map((title) => (
          <button key={title} type="button" className="word" onClick={() => choose('witness', title)}>
            {title}
          </button>
        ))}
      </p>
      <p className="key-row">
        <input
          type="text"
          aria-label="Another witness or person"
          placeholder="another, by name"
          value={name}
          onChange={(event) => setName(event.target.value)}
        />
        <button
          type="button"
          className="word plain"
          disabled={name.trim() === ''}
          onClick={() => choose('witness', name.trim())}
        >
          a witness
        </button>
        <button
          type="button"
          className="word plain"
          disabled={name.trim() === ''}
          onClick={() => choose('person', name.trim())}
        >
          a person
        </button>
      </p>
    </div>
  );
}

function sourced(transcription: Transcription, index: number, source: SuppliedFrom): Transcription {
  const items = transcription.items.map(
    (item, i): Item => (i === index && 'source' in item ? { ...item, source } : item),
  );
  return { ...transcription, items };
}
