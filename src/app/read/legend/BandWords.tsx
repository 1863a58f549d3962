import { useId } from 'react';
import { bandWords, facingDoubtWords, letterSenseWords } from '../../../core/report/words/index.ts';
import { number } from '../../look/numbers.ts';
import { actOnLegend } from '../state/acts.ts';
import { useBands, usePlaces, useRing, useScan, useSeenDegrees } from '../state/current.ts';
import { asFound, moveEdge, moveStart, turnFacing } from '../state/edges.ts';
import { setRead } from '../state/readStore.ts';

const nth = ['outer ring', 'second ring', 'third ring', 'fourth ring'] as const;

/** Where the legend runs: which ring, both edges, the start, and which way the letters stand. */
export function BandWords() {
  const { scan } = useScan();
  const bands = useBands();
  const ring = useRing();
  const places = usePlaces();
  const degrees = useSeenDegrees();
  if (!scan || !ring) return null;
  const { band, startDeg, facing, arcs } = ring.order;
  const touched = Object.values(ring.edits).some((value) => value !== undefined);
  const choose = (k: number): void => {
    actOnLegend(scan.id, 'Another ring', () => ({ ring: k }));
    setRead({ hovered: null });
  };
  const turnTo = (to: 'inward' | 'outward' | 'both'): void => turnFacing(scan.id, ring, places, to);
  return (
    <>
      <h3>Band</h3>
      {bands.length > 1 && (
        <p className="seats">
          {bands.map((each, k) => (
            <button
              key={`${each.band.outerMm} ${each.band.cx}`}
              type="button"
              className="word"
              aria-pressed={k === ring.ring}
              onClick={() => choose(k)}
            >
              {nth[k] ?? `ring ${k + 1}`}
            </button>
          ))}
        </p>
      )}
      <div className="read-fields">
        <Field
          label="Outer edge, mm in"
          value={band.outerMm}
          step={0.1}
          onSet={(mm) => moveEdge(scan.id, ring, 'outerMm', mm)}
        />
        <Field
          label="Inner edge, mm in"
          value={band.innerMm}
          step={0.1}
          onSet={(mm) => moveEdge(scan.id, ring, 'innerMm', mm)}
        />
        <Field
          label="Begins at, degrees"
          value={degrees.seen(startDeg)}
          step={1}
          onSet={(deg) => moveStart(scan.id, ring, places, degrees.found(deg))}
        />
        <label>
          <span>Feet of the letters</span>
          <select
            value={arcs ? 'both' : facing}
            onChange={(event) => turnTo(event.target.value as 'inward' | 'outward' | 'both')}
          >
            {ring.found.arcs.length > 1 && <option value="both">two ways, arc by arc</option>}
            <option value="inward">to the middle</option>
            <option value="outward">to the rim</option>
          </select>
        </label>
      </div>
      <p className="soft">
        {ring.found.crossDeg === null
          ? 'No cross was seen at the beginning.'
          : `A cross stands at ${number(degrees.seen(ring.found.crossDeg), 0)}°.`}{' '}
        {ring.found.startsAt === 'whole' && 'The strip begins where the broken legend is whole again. '}
        {ring.order.arcs ? 'The letters face two ways.' : letterSenseWords(ring.found.letters)}{' '}
        {facingDoubtWords(ring.found.facingDoubts)}{' '}
        {bandWords(ring.order.band, Math.max(...ring.found.letters.likeness))}
      </p>
      <p className="seats">
        <button type="button" className="word" disabled={!touched} onClick={() => asFound(scan.id, ring, places)}>
          as found
        </button>
      </p>
    </>
  );
}

function Field(props: { label: string; value: number; step: number; onSet(value: number): void }) {
  const { label, value, step, onSet } = props;
  const id = useId();
  return (
    <label htmlFor={id}>
      <span>{label}</span>
      <input
        id={id}
        type="number"
        step={step}
        value={Number(value.toFixed(2))}
        onChange={(event) => event.target.value !== '' && onSet(Number(event.target.value))}
      />
    </label>
  );
}
