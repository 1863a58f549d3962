import { useState } from 'react';
import type { PlateFormat } from '../../../core/report/index.ts';
import type { PlateOrder } from '../../../workers/browser/readingProtocol.ts';
import { useDocument, useStore } from '../../state/store.ts';
import { languageOf } from '../state/card.ts';
import { useScan, useSeenLook } from '../state/current.ts';
import { usePlateObjects } from '../state/plateObjects.ts';
import { formats, usePlateSaving } from './plateSaving.ts';
import { plateSize, type SizeUnit, sizeFault, sizeUnits, type TypedSize } from './plateSize.ts';

/** The face, or all faces side by side, as a plate at a stated size and resolution: the same that the command line makes. */
export function PrintedPlate() {
  const { scan, face } = useScan();
  const offline = useStore((state) => state.offline);
  const draft = useDocument((document) => (scan ? document.read.cards[scan.id] : undefined)) ?? {};
  const [{ one, all }, simulated] = usePlateObjects();
  const [typed, setTyped] = useState<TypedSize>({ value: '1', unit: 'times', dpi: '600' });
  const [asSeen, setAsSeen] = useState(false);
  const look = useSeenLook('face');
  const [format, setFormat] = useState<PlateFormat>('png');
  const [credit, setCredit] = useState('');
  const [together, setTogether] = useState(false);
  const { making, save } = usePlateSaving();
  if (!scan || !face || !one || offline) return null;
  const objects: readonly PlateOrder[] = together ? all : [one];
  const fault = sizeFault(
    typed,
    objects.map(({ outline }) => outline),
  );
  const make = (): Promise<void> => {
    const options = {
      ...{ size: plateSize(typed), dpi: Number(typed.dpi), simulated, language: languageOf(draft) },
      ...(asSeen && { look }),
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
          <span>Size on paper</span>
          <input
            type="text"
            inputMode="decimal"
            value={typed.value}
            onChange={(event) => setTyped({ ...typed, value: event.target.value })}
          />
        </label>
        <label>
          <span>Counted in</span>
          <select value={typed.unit} onChange={(event) => setTyped({ ...typed, unit: event.target.value as SizeUnit })}>
            {Object.entries(sizeUnits).map(([unit, words]) => (
              <option key={unit} value={unit}>
                {words}
              </option>
            ))}
          </select>
        </label>
        <label>
          <span>Dots per inch</span>
          <input
            type="text"
            inputMode="numeric"
            value={typed.dpi}
            onChange={(event) => setTyped({ ...typed, dpi: event.target.value })}
          />
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
          <span>Light</span>
          <select value={asSeen ? 'seen' : 'plate'} onChange={(event) => setAsSeen(event.target.value === 'seen')}>
            <option value="plate">two lamps, as all plates</option>
            <option value="seen">as the face is seen</option>
          </select>
        </label>
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
