import { useState } from 'react';
import type { PlateFormat } from '../../../core/report/index.ts';
import type { PlateOrder } from '../../../workers/browser/readingProtocol.ts';
import { useDocument, useStore } from '../../state/store.ts';
import { languageOf } from '../state/card.ts';
import { useScan } from '../state/current.ts';
import { usePlateObjects } from '../state/plateObjects.ts';
import { formats, usePlateSaving } from './plateSaving.ts';

/** More dots than a page can hold at once. */
const mostDots = 60e6;

/** The face, or all faces side by side, as a plate at a stated size and resolution: the same that the command line makes. */
export function PrintedPlate() {
  const { scan, face } = useScan();
  const offline = useStore((state) => state.offline);
  const draft = useDocument((document) => (scan ? document.read.cards[scan.id] : undefined)) ?? {};
  const [{ one, all }, simulated] = usePlateObjects();
  const [times, setTimes] = useState('1');
  const [dpi, setDpi] = useState('600');
  const [format, setFormat] = useState<PlateFormat>('png');
  const [credit, setCredit] = useState('');
  const [together, setTogether] = useState(false);
  const { making, save } = usePlateSaving();
  if (!scan || !face || !one || offline) return null;
  const objects: readonly PlateOrder[] = together ? all : [one];
  const fault = sizeFault(Number(times), Number(dpi), objects.length, face.outline);
  const make = (): Promise<void> => {
    const options = {
      ...{ printScale: Number(times), dpi: Number(dpi), simulated, language: languageOf(draft) },
      ...(credit.trim() !== '' && { credit: credit.trim() }),
    };
    const stem = `${scan.name.replace(/\.[^.]+$/, '')}-plate`;
    return save(
      (reading, told) => reading.plate(objects, options, told),
      (plate) => plate,
      stem,
      format,
    );
  };
  return (
    <>
      <h3>Plate for print</h3>
      <div className="read-fields">
        <label>
          <span>Times natural size</span>
          <input type="text" inputMode="decimal" value={times} onChange={(event) => setTimes(event.target.value)} />
        </label>
        <label>
          <span>Dots per inch</span>
          <input type="text" inputMode="numeric" value={dpi} onChange={(event) => setDpi(event.target.value)} />
        </label>
        <label>
          <span>File</span>
          <select value={format} onChange={(event) => setFormat(event.target.value as PlateFormat)}>
            {formats.map((value) => (
              <option key={value} value={value}>
                {value.toUpperCase()}
              </option>
            ))}
          </select>
        </label>
        {all.length > 1 && (
          <label>
            <span>Shows</span>
            <select value={together ? 'all' : 'one'} onChange={(event) => setTogether(event.target.value === 'all')}>
              <option value="one">this object</option>
              <option value="all">all {all.length}, at one scale</option>
            </select>
          </label>
        )}
        <label className="wide">
          <span>Credit line</span>
          <input type="text" value={credit} onChange={(event) => setCredit(event.target.value)} />
        </label>
      </div>
      {fault && <p className="fault">{fault}</p>}
      <p>
        <button type="button" className="word plain" disabled={fault !== null || making} onClick={() => void make()}>
          save the plate
        </button>
      </p>
    </>
  );
}

function sizeFault(times: number, dpi: number, count: number, size: { widthMm: number; heightMm: number }) {
  if (!(times >= 0.05 && times <= 50)) return 'Times natural size lie between 0.05 and 50.';
  if (!(dpi >= 50 && dpi <= 2400)) return 'Dots per inch lie between 50 and 2400.';
  const perMm = (times * dpi) / 25.4;
  const dots = count * size.widthMm * size.heightMm * perMm ** 2;
  return dots > mostDots ? 'The plate would have more dots than a page can hold; take a smaller size.' : null;
}
