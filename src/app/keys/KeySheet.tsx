import { useEffect, useRef } from 'react';
import { setState, useStore } from '../state/store.ts';
import { bindings } from './bindings.ts';
import './keys.css';

/** All keys on one sheet. */
export function KeySheet() {
  const shown = useStore((state) => state.keysShown);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (shown) dialog.current?.showModal();
    else dialog.current?.close();
  }, [shown]);
  return (
    <dialog
      ref={dialog}
      className="key-sheet"
      aria-labelledby="keys-title"
      onClose={() => setState({ keysShown: false })}
    >
      <h2 id="keys-title">Keys</h2>
      <dl>
        {bindings
          .filter((binding) => binding.print)
          .map((binding) => (
            <div key={binding.print + binding.does}>
              <dt>{binding.print}</dt>
              <dd>{binding.does}</dd>
            </div>
          ))}
      </dl>
      <p className="soft">
        With the pointer: drag moves both seals, the wheel or two fingers enlarge, the right button or Alt tips, a
        double click lays straight. The sun on the ring is the lamp.
      </p>
      <button type="button" className="deed" onClick={() => setState({ keysShown: false })}>
        Back to the plate
      </button>
    </dialog>
  );
}
