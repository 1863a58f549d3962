import { useState } from 'react';
import { download } from '../../state/download.ts';
import { notify } from '../../state/store.ts';
import { askOnce } from '../state/ask.ts';
import { useFragments } from '../state/fragments.ts';
import { setRead, useRead } from '../state/readStore.ts';

const formats = ['png', 'tif', 'svg'] as const;

/** Which scans are fragments, how each was fitted, and the plate for print. */
export function FragmentsMargin() {
  const fragments = useFragments();
  const shown = useRead((state) => state.slots.fragments.shown);
  if (!fragments) return null;
  const { reference, subjects, pieces } = fragments;
  const keys = pieces.map(({ scan }) => scan.key);
  const toggle = (key: string): void =>
    setRead({ pieces: keys.includes(key) ? keys.filter((each) => each !== key) : [...keys, key] });
  return (
    <>
      <h3>Fitted to</h3>
      <p>{reference.name}</p>
      <h3>Fragments</h3>
      <ul className="seat-list">
        {subjects.map(({ scan: { key }, name }) => (
          <li key={key}>
            <label>
              <input type="checkbox" checked={keys.includes(key)} onChange={() => toggle(key)} /> {name}
            </label>
          </li>
        ))}
      </ul>
      {pieces.length < 2 && <p className="soft">At least two are laid together.</p>}
      {shown && (
        <>
          <ul className="standings">
            {shown.value.standings.map(({ name, words }) => (
              <li key={name}>
                {name}: <span className="soft">{words}.</span>
              </li>
            ))}
            {shown.value.left.map((name) => (
              <li key={name}>
                {name}: <span className="soft">could not be fitted; it is not shown.</span>
              </li>
            ))}
          </ul>
          <SavePlate />
        </>
      )}
    </>
  );
}

/** At natural size, 600 dots per inch. */
function SavePlate() {
  const fragments = useFragments();
  const [making, setMaking] = useState(false);
  if (!fragments) return null;
  const { reference, pieces, simulated } = fragments;
  const save = async (format: (typeof formats)[number]): Promise<void> => {
    setMaking(true);
    const options = { printScale: 1, dpi: 600, language: 'en', simulated } as const;
    const answer = await askOnce((reading, told) => reading.fragments(reference, pieces, options, told));
    if (answer !== 'stopped' && answer.ok) {
      const { plateFile } = await import('../light/platePainting.ts');
      download(await plateFile(answer.value.plate, format), `fragments-plate.${format}`);
    } else if (answer !== 'stopped') notify(answer.message);
    setMaking(false);
  };
  return (
    <>
      <h3>Plate for print</h3>
      <p>At natural size, 600 dots per inch:</p>
      <p className="key-row">
        {formats.map((format) => (
          <button key={format} type="button" className="word" disabled={making} onClick={() => void save(format)}>
            save as {format.toUpperCase()}
          </button>
        ))}
      </p>
    </>
  );
}
