import { useEffect, useState } from 'react';
import { bringSample, type Sample, sampleList } from './samples.ts';

/** The demonstration scans, all simulated. */
export function SampleShelf() {
  const [samples, setSamples] = useState<readonly Sample[]>([]);
  useEffect(() => {
    void sampleList().then((list) => setSamples(list.scans));
  }, []);
  if (samples.length === 0) return null;
  return (
    <section>
      <h3>Samples, all simulated</h3>
      <ul>
        {samples.map((sample) => (
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
