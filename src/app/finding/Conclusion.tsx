import { useState } from 'react';
import { act, useDocument } from '../state/store.ts';
import { today } from './today.ts';

/** One's own conclusion, signed and dated, beside the tool's. */
export function Conclusion() {
  const kept = useDocument((document) => document.conclusion);
  const [text, setText] = useState(kept?.text ?? '');
  const [by, setBy] = useState(kept?.by ?? '');
  const changed = text !== (kept?.text ?? '') || by !== (kept?.by ?? '');
  return (
    <form
      className="conclusion"
      onSubmit={(event) => {
        event.preventDefault();
        act('Conclusion signed', (document) => ({ ...document, conclusion: { text, by, on: today() } }));
      }}
    >
      <h3>Your conclusion</h3>
      <label>
        <span className="unseen">Your conclusion</span>
        <textarea rows={2} value={text} onChange={(event) => setText(event.target.value)} />
      </label>
      <label>
        <span className="soft">signed </span>
        <input type="text" size={16} value={by} onChange={(event) => setBy(event.target.value)} />
      </label>{' '}
      <button type="submit" className="word plain" disabled={!changed || text.trim() === '' || by.trim() === ''}>
        sign and date
      </button>
      {kept && (
        <p className="soft">
          Signed {kept.by}, {kept.on}.
        </p>
      )}
    </form>
  );
}
