import { formats, usePlateSaving } from '../light/plateSaving.ts';
import { useFragments } from '../state/fragments.ts';
import { setRead, useRead } from '../state/readStore.ts';

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
          {shown.value.overlaps.map((words) => (
            <p key={words} className="fault">
              {words}
            </p>
          ))}
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
  const { making, save } = usePlateSaving();
  if (!fragments) return null;
  const { reference, pieces, simulated, language } = fragments;
  const options = { printScale: 1, dpi: 600, language, simulated } as const;
  const saveAs = (format: (typeof formats)[number]): Promise<void> =>
    save(
      (reading, told) => reading.fragments(reference, pieces, options, told),
      ({ plate }) => plate,
      'fragments-plate',
      format,
    );
  return (
    <>
      <h3>Plate for print</h3>
      <p>At natural size, 600 dots per inch:</p>
      <p className="key-row">
        {formats.map((format) => (
          <button key={format} type="button" className="word" disabled={making} onClick={() => void saveAs(format)}>
            save as {format.toUpperCase()}
          </button>
        ))}
      </p>
    </>
  );
}
