import { useState } from 'react';
import { act, useDocument } from '../state/store.ts';
import { today } from './today.ts';

/** One's own reading before the tool's is unfolded: kept with its day, and not changed afterwards. */
export function FirstReading() {
  const reading = useDocument((document) => document.firstReading);
  const open = useDocument((document) => document.findingOpen);
  const [text, setText] = useState('');
  if (reading)
    return (
      <>
        <h3>Your first reading, {reading.on}</h3>
        <p>{reading.text}</p>
      </>
    );
  if (open) return null;
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        act('First reading noted', (document) => ({ ...document, firstReading: { text, by: '', on: today() } }));
      }}
    >
      <p>Look first. If you like, note what you see before the tool’s finding is unfolded; both are kept.</p>
      <label>
        <span className="unseen">Your first reading</span>
        <textarea rows={3} value={text} onChange={(event) => setText(event.target.value)} />
      </label>
      <button type="submit" className="word plain" disabled={text.trim() === ''}>
        note it
      </button>
    </form>
  );
}
