import { useEffect, useState } from 'react';
import { setState } from '../state/store.ts';
import { bringSample, layDatedSamples, layPair, type SampleList, sampleList } from './samples.ts';

/** The demonstration scans, all simulated: in pairs that show something, and one by one. */
export function SampleShelf() {
  const [list, setList] = useState<SampleList>({ samples: [] });
  useEffect(() => {
    void sampleList().then(setList);
  }, []);
  if (list.samples.length === 0) return null;
  return (
    <section>
      {list.pairs && <h3>Pairs to try, all simulated</h3>}
      <ul>
        {list.pairs?.map((pair) => (
          <li key={`${pair.reference} ${pair.subject}`}>
            <button
              type="button"
              className="word plain sample"
              onClick={() => {
                setState({ step: 'compare' });
                void layPair(pair);
              }}
            >
              {pair.title}
            </button>
            <p className="soft sample-look">{pair.look}</p>
          </li>
        ))}
      </ul>
      {list.dates && <h3>One object on two dates, simulated</h3>}
      <ul>
        {list.dates?.map((dates) => (
          <li key={dates.earlier}>
            <button type="button" className="word plain sample" onClick={() => void layDatedSamples(dates)}>
              {dates.title}
            </button>
            <p className="soft sample-look">{dates.look}</p>
          </li>
        ))}
      </ul>
      <h3>Single samples, all simulated</h3>
      <ul>
        {list.samples.map((sample) => (
          <li key={sample.file}>
            <button
              type="button"
              className="word plain sample"
              title={sample.description}
              onClick={() => void bringSample(sample)}
            >
              {sample.title}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
