import { looks } from '../state/document.ts';
import { useView } from '../state/ground.ts';
import { usePair } from '../state/select.ts';
import { actOnView, useDocument } from '../state/store.ts';
import { lookWords } from './stepWords.ts';

/** How the two seals are laid out, as a sentence of words. */
export function LookChoice() {
  const { look } = useView();
  const onTop = useDocument((document) => document.view.onTop);
  const { comparison } = usePair();
  return (
    <>
      <span className="soft">Seen</span>
      {looks.map((name) => (
        <button
          key={name}
          type="button"
          className="word"
          aria-pressed={look === name}
          disabled={name === 'difference' && !comparison?.difference}
          onClick={() => actOnView('Looked at otherwise', { look: name })}
        >
          {lookWords[name]}
        </button>
      ))}
      {look === 'turn' && (
        <button
          type="button"
          className="word plain"
          onClick={() =>
            actOnView('Turned the leaf', { onTop: onTop === 'reference' ? 'subject' : 'reference' }, 'turn')
          }
        >
          {onTop === 'reference' ? 'a is on top: show b' : 'b is on top: show a'}
        </button>
      )}
    </>
  );
}
