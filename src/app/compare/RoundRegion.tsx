import { useState } from 'react';
import type { OwnMark } from '../state/document.ts';
import { newId } from '../state/newId.ts';
import { act, setState } from '../state/store.ts';
import { turnDegNow } from '../state/upright.ts';

/** A region of one's own without drawing: a circle at an angle and a distance from the middle. */
export function RoundRegion() {
  const [open, setOpen] = useState(false);
  const [place, setPlace] = useState({ deg: '0', away: '0', across: '4' });
  if (!open)
    return (
      <p>
        <button type="button" className="word" onClick={() => setOpen(true)}>
          mark a round region by numbers
        </button>
      </p>
    );
  const field = (name: keyof typeof place, words: string) => (
    <label>
      <span className="soft">{words}</span>{' '}
      <input
        type="text"
        inputMode="decimal"
        size={4}
        value={place[name]}
        onChange={(event) => setPlace({ ...place, [name]: event.target.value })}
      />
    </label>
  );
  return (
    <form
      className="section-ends num"
      onSubmit={(event) => {
        event.preventDefault();
        markCircle(Number(place.deg), Number(place.away), Number(place.across));
        setOpen(false);
      }}
    >
      {field('deg', 'at, ° clockwise')}
      {field('away', 'mm from the middle')}
      {field('across', 'mm across')}
      <button type="submit" className="word plain">
        mark it
      </button>
    </form>
  );
}

function markCircle(deg: number, away: number, across: number): void {
  if (![deg, away, across].every(Number.isFinite) || !(across > 0)) return;
  // As the degrees are seen; the plate's frame is the reference's own.
  const a = ((deg - turnDegNow()) * Math.PI) / 180;
  const [x, y] = [away * Math.sin(a), away * Math.cos(a)];
  const outline = Array.from({ length: 36 }, (_, i): [number, number] => {
    const t = (i / 36) * 2 * Math.PI;
    return [x + (across / 2) * Math.cos(t), y + (across / 2) * Math.sin(t)];
  });
  const id = `own-${newId()}`;
  act('Region marked', (document) => {
    const mark: OwnMark = { id, label: `Region ${document.ownMarks.length + 1}`, outline };
    return { ...document, ownMarks: [...document.ownMarks, mark] };
  });
  setState({ selectedMark: id });
}
