import { useEffect, useRef } from 'react';
import { setState, useStore } from '../state/store.ts';
import { type Binding, bindings } from './bindings.ts';
import './keys.css';

const hours = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12] as const;

/** What the hands can do, round a seal: the hours of its rim for the lamp, the arrows in its middle, and words for the rest. */
export function KeySheet() {
  const shown = useStore((state) => state.keysShown);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (shown) dialog.current?.showModal();
    else dialog.current?.close();
  }, [shown]);
  return (
    <dialog
      ref={dialog}
      className="key-sheet"
      aria-labelledby="keys-title"
      onClose={() => setState({ keysShown: false })}
    >
      <h2 id="keys-title">By hand and by key</h2>
      <div className="key-seal">
        <Rim />
        <div>
          <p>
            The lamp goes to an hour of the rim: keys 1 to 9, and 0 for twelve. <i>Page up</i> raises it,{' '}
            <i>page down</i> lowers it to rake. With the sun itself in hand, the arrows lead it to any place between.
          </p>
          <p>
            The arrows move both seals, with shift they tip them; + and − enlarge, <i>home</i> lays them straight. With
            the pointer: drag, wheel or two fingers; the right button or Alt tips; a double click lays straight.
          </p>
        </div>
      </div>
      <p className="key-words">
        {bindings.filter(told).map(({ print, does }) => (
          <span key={print + does}>
            <kbd>{print}</kbd> {does}
          </span>
        ))}
      </p>
      <button type="button" className="deed" onClick={() => setState({ keysShown: false })}>
        Back to the plate
      </button>
    </dialog>
  );
}

/** What the drawing does not say already. */
const drawn = new Set(['1 … 9, 0', '+', '−', 'home', '← → ↑ ↓', 'shift with ← → ↑ ↓']);
const told = ({ print }: Binding): boolean => print !== '' && !drawn.has(print);

function Rim() {
  return (
    <svg viewBox="-100 -100 200 200" width={190} height={190} aria-hidden="true">
      <path className="rim" d="M0 -64C36 -38 36 38 0 64C-36 38 -36 -38 0 -64Z" />
      {hours.map((hour) => {
        const a = (hour * Math.PI) / 6;
        const [x, y] = [84 * Math.sin(a), -84 * Math.cos(a)];
        return (
          <text key={hour} x={x} y={y + 5} textAnchor="middle" className={hour > 9 && hour < 12 ? 'between' : ''}>
            {hour === 12 ? '0' : hour}
          </text>
        );
      })}
      <path
        className="arrows"
        d="M-22 0H22M0 -22V22M-17 -5L-22 0L-17 5M17 -5L22 0L17 5M-5 -17L0 -22L5 -17M-5 17L0 22L5 17"
      />
    </svg>
  );
}
