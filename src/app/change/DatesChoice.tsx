import { useId } from 'react';
import { type DatePlace, exchangeDates, placeDate, useDates } from '../state/dates.ts';
import { useDocument } from '../state/store.ts';
import { ChooseDate } from './ChooseDate.tsx';

const places: readonly { readonly place: DatePlace; readonly words: string; readonly needs?: DatePlace }[] = [
  { place: 'earlierId', words: 'Earlier' },
  { place: 'earlierAgainId', words: 'the same day again', needs: 'earlierId' },
  { place: 'laterId', words: 'Later' },
  { place: 'laterAgainId', words: 'the same day again', needs: 'laterId' },
];

/** Which scan stands for which date: nothing in a file says when it was made. */
export function DatesChoice() {
  const scans = useDocument((document) => document.scans);
  const dates = useDates();
  if (scans.length === 0) return null;
  return (
    <>
      <h3>Scans</h3>
      <div className="dates-choice">
        {places.map(({ place, words, needs }) => (
          <Choice key={place} place={place} words={words} disabled={needs !== undefined && !dates[needs]} />
        ))}
      </div>
      {dates.earlierId && dates.laterId && (
        <button type="button" className="word plain" onClick={exchangeDates}>
          exchange the dates
        </button>
      )}
    </>
  );
}

function Choice({ place, words, disabled }: { place: DatePlace; words: string; disabled: boolean }) {
  const id = useId();
  const scans = useDocument((document) => document.scans);
  const chosen = useDates()[place];
  return (
    <>
      <label htmlFor={id}>{words}</label>
      <select
        id={id}
        value={chosen?.id ?? ''}
        disabled={disabled}
        onChange={(event) => placeDate(place, event.target.value === '' ? null : event.target.value)}
      >
        <option value="">{place.includes('Again') ? 'not scanned' : 'not chosen'}</option>
        {scans.map((scan) => (
          <option key={scan.id} value={scan.id}>
            {scan.title}
          </option>
        ))}
      </select>
      {place.includes('Again') && !chosen && !disabled && (
        <span className="date-file">
          <ChooseDate
            place={place}
            name={place === 'earlierAgainId' ? 'Earlier scan again' : 'Later scan again'}
            words="choose its file"
            className="word"
          />
        </span>
      )}
    </>
  );
}
