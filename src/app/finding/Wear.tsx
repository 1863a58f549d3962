import { useEffect } from 'react';
import type { WearZone } from '../../core/condition/index.ts';
import { number, percent } from '../look/numbers.ts';
import { wearWords } from '../look/wearWords.ts';
import { hatchOf } from '../plate/WearPatterns.tsx';
import { useDocument, useStore } from '../state/store.ts';
import { askWear, handOnPart, pointAtZone, useDrawnWear } from '../state/wear.ts';
import './wear.css';

/** The state of the subject by zone. Where the hand is on a zone, its wear is drawn on the plate; a click keeps it there. */
export function Wear({ zones }: { zones: readonly WearZone[] }) {
  const asked = useDocument((document) => document.view.wear);
  useEffect(() => () => pointAtZone(null), []);
  if (zones.length === 0) return null;
  return (
    <>
      <h3>State of b by zone</h3>
      <table className="models num wear-table">
        <thead>
          <tr>
            <th scope="col">Zone</th>
            <th scope="col">State</th>
            <th scope="col">Height kept</th>
          </tr>
        </thead>
        <tbody>
          {zones.map((zone) => (
            <Row key={`${zone.zone}${zone.state}`} zone={zone} />
          ))}
        </tbody>
      </table>
      <Key />
      <p>
        <button type="button" className="word" onClick={() => askWear(asked === null ? 'whole' : null)}>
          {asked === null ? 'draw the states on the plate' : 'hide the states'}
        </button>
      </p>
    </>
  );
}

function Row({ zone: each }: { zone: WearZone }) {
  const { zone, heightKept, heightKeptSd, fraction } = each;
  const asked = useDocument((document) => document.view.wear);
  const under = useStore((store) => store.wornPart?.zone === zone || store.wearPointed === zone);
  return (
    <tr className={under ? 'under' : undefined}>
      <th scope="row">
        <button
          type="button"
          className="word plain"
          aria-pressed={asked === zone}
          onPointerEnter={() => pointAtZone(zone)}
          onPointerLeave={() => pointAtZone(null)}
          onFocus={() => pointAtZone(zone)}
          onBlur={() => pointAtZone(null)}
          onClick={() => askWear(asked === zone ? null : zone)}
        >
          {zone}
        </button>
      </th>
      <td>
        {wearWords[each.state]}, {percent(fraction)}
      </td>
      <td>{keptWords(heightKept, heightKeptSd)}</td>
    </tr>
  );
}

/** What each hatching on the plate says, and over how much of the face. */
function Key() {
  const { zones, areas } = useDrawnWear();
  const hand = useStore((state) => state.wornPart);
  if (zones.length === 0) return null;
  if (areas.length === 0) return <p className="soft">Nothing is drawn there: sharp all over.</p>;
  return (
    <ul className="wear-key num">
      {areas.map(({ zone, state, areaMm2 }) => (
        <li
          key={`${zone}${state}`}
          className={hand?.zone === zone && hand.state === state ? 'under' : undefined}
          onPointerEnter={() => handOnPart({ zone, state })}
          onPointerLeave={() => handOnPart(null)}
        >
          <svg width={26} height={16} aria-hidden="true">
            <title>Hatching</title>
            <rect width={26} height={16} style={{ fill: hatchOf(state) }} />
          </svg>
          {zone}: {wearWords[state]}, {number(areaMm2, 0)} mm²
        </li>
      ))}
    </ul>
  );
}

/** What a zone has kept; a number that was not measured, or not saved, is not printed as nought. */
export function keptWords(kept: number | null, sd: number | null): string {
  if (kept === null || !Number.isFinite(kept)) return '–';
  return sd === null || !Number.isFinite(sd) ? percent(kept) : `${percent(kept)} ± ${percent(sd)}`;
}
