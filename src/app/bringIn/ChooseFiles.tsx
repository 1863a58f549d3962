import { type ChangeEvent, useRef } from 'react';
import { openSaved } from '../saved/openSaved.ts';
import { bringIn } from '../state/scans.ts';
import { setState } from '../state/store.ts';

/** Files or a whole folder, chosen with the system's own dialogue. */
export function ChooseFiles({ quiet = false }: { quiet?: boolean }) {
  const files = useRef<HTMLInputElement>(null);
  const folder = useRef<HTMLInputElement>(null);
  const onChange = async (event: ChangeEvent<HTMLInputElement>): Promise<void> => {
    const chosen = [...(event.target.files ?? [])].map((file) => ({ file, name: file.name }));
    event.target.value = '';
    if (chosen.length === 0 || (chosen.length === 1 && (await openSaved(chosen[0])))) return;
    setState({ step: 'bringIn' });
    await bringIn(chosen);
  };
  return (
    <>
      <button type="button" className={quiet ? 'word plain' : 'deed'} onClick={() => files.current?.click()}>
        Choose files
      </button>
      <button type="button" className="word plain" onClick={() => folder.current?.click()}>
        or a folder
      </button>
      <input
        ref={files}
        className="unseen"
        type="file"
        multiple
        tabIndex={-1}
        aria-label="Scan files"
        onChange={onChange}
      />
      <input
        ref={(input) => {
          folder.current = input;
          // Not yet a property that React knows.
          input?.setAttribute('webkitdirectory', '');
        }}
        className="unseen"
        type="file"
        tabIndex={-1}
        aria-label="A folder of scans"
        onChange={onChange}
      />
    </>
  );
}
