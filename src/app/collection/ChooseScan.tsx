import { useRef } from 'react';
import { searchFor } from './state/searching.ts';

/** The same as dropping a scan on the page, by keyboard. */
export function ChooseScan() {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" className="deed" onClick={() => input.current?.click()}>
        Search by a scan
      </button>
      <input
        ref={input}
        type="file"
        className="unseen"
        tabIndex={-1}
        aria-label="Scan to search by"
        onChange={(event) => {
          const [file] = event.target.files ?? [];
          event.target.value = '';
          if (file) void searchFor(file);
        }}
      />
    </>
  );
}
