import { useEffect, useState } from 'react';
import { layDatedSamples, type SampleDates, sampleList } from '../bringIn/samples.ts';
import { type DatePlace, useDates } from '../state/dates.ts';
import { useStore } from '../state/store.ts';
import { ChooseDate } from './ChooseDate.tsx';

/** As long as a date is missing: where each is brought in. */
export function BringDates() {
  const offline = useStore((state) => state.offline);
  const dates = useDates();
  const [samples, setSamples] = useState<readonly SampleDates[]>([]);
  useEffect(() => {
    void sampleList().then((list) => setSamples(list.dates ?? []));
  }, []);
  if (offline)
    return (
      <p className="dates-empty">
        This page shows a comparison as it was saved; two dates are held against one another in the app.
      </p>
    );
  return (
    <div className="dates-empty">
      <p>
        Two scans of one object, made on two dates. Drop both here: the order of their names is taken for the order of
        the dates.
      </p>
      <div className="date-doors">
        <Door place="earlierId" name="Earlier" title={dates.earlierId?.title} />
        <Door place="laterId" name="Later" title={dates.laterId?.title} />
      </div>
      <p className="soft">
        Both show the same side, finer than its strokes. A second scan of the same day, the object lifted and laid anew,
        tells noise from change.
      </p>
      {samples.map((sample) => (
        <p key={sample.earlier}>
          <button type="button" className="word plain" onClick={() => void layDatedSamples(sample)}>
            {sample.title}
          </button>
          , simulated
        </p>
      ))}
    </div>
  );
}

function Door({ place, name, title }: { place: DatePlace; name: string; title: string | undefined }) {
  return (
    <div className="date-door">
      <h2>{name}</h2>
      {title && <p>{title}</p>}
      <ChooseDate
        place={place}
        name={`${name} scan`}
        words={title ? 'another file' : 'Choose a file'}
        className={title ? 'word plain' : 'deed'}
      />
    </div>
  );
}
