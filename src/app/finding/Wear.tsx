import type { WearState, WearZone } from '../../core/judge/index.ts';
import { percent } from '../look/numbers.ts';

const states: Readonly<Record<WearState, string>> = {
  sharp: 'sharp',
  rubbed: 'rubbed',
  flattened: 'flattened',
  notFilled: 'not filled',
  clogged: 'clogged',
  lost: 'lost',
  added: 'added to',
  blurred: 'blurred',
  cannotJudge: 'cannot be judged',
};

/** The state of the subject by zone. */
export function Wear({ zones }: { zones: readonly WearZone[] }) {
  if (zones.length === 0) return null;
  return (
    <>
      <h3>State of b by zone</h3>
      <table className="models num">
        <thead>
          <tr>
            <th scope="col">Zone</th>
            <th scope="col">State</th>
            <th scope="col">Height kept</th>
          </tr>
        </thead>
        <tbody>
          {zones.map(({ zone, state, heightKept, heightKeptSd, fraction }) => (
            <tr key={`${zone}${state}`}>
              <th scope="row">{zone}</th>
              <td>
                {states[state]}, {percent(fraction)}
              </td>
              <td>{Number.isNaN(heightKept) ? '–' : `${percent(heightKept)} ± ${percent(heightKeptSd)}`}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
