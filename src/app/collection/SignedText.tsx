import { useId, useState } from 'react';
import { signAs, useRooms } from './state/rooms.ts';

interface Props {
  readonly label: string;
  readonly act: string;
  readonly long?: boolean;
  /** True where it was kept. */
  send(words: string): Promise<boolean>;
}

/** A few words that somebody signs. */
export function SignedText({ label, act, long = false, send }: Props) {
  const id = useId();
  const [words, setWords] = useState('');
  return (
    <form
      className="signed"
      onSubmit={async (event) => {
        event.preventDefault();
        if (await send(words)) setWords('');
      }}
    >
      <label htmlFor={id}>{label}</label>
      {long ? (
        <textarea id={id} rows={2} value={words} onChange={(event) => setWords(event.target.value)} />
      ) : (
        <input id={id} type="text" value={words} onChange={(event) => setWords(event.target.value)} />
      )}
      <Signature />
      <button type="submit" className="word plain" disabled={words.trim() === ''}>
        {act}
      </button>
    </form>
  );
}

/** Who decides; the date is put by the collection. */
export function Signature() {
  const by = useRooms((state) => state.by);
  return (
    <label className="signature">
      by <input type="text" value={by} placeholder="your name" onChange={(event) => signAs(event.target.value)} />
    </label>
  );
}
