import { useEffect } from 'react';
import { number } from '../../look/numbers.ts';
import { useRing, useScan, useSeenDegrees } from '../state/current.ts';
import { stand, useLegible } from '../state/legible.ts';
import { clockWords } from '../state/words.ts';

/** From the clearest place of the legend to the most doubtful, each under the look that serves it best. No letter is proposed. */
export function LegiblePlaces() {
  const now = useLegible();
  const { scan } = useScan();
  const ring = useRing();
  const { seen } = useSeenDegrees();
  const told = now?.places ?? null;
  const begun = now?.rank === 0;
  // biome-ignore lint/correctness/useExhaustiveDependencies: once, when what was asked for is told
  useEffect(() => {
    if (scan && ring && begun) stand(scan.id, ring, told?.[0]);
  }, [told]);
  if (!now) return null;
  const { rank, begin, go, end } = now;
  const place = rank === null ? undefined : told?.[rank];
  return (
    <>
      <h3>Places</h3>
      {place && rank !== null && told ? (
        <>
          <p>
            {placeOf(rank, told.length)}, at {clockWords(seen(place.deg))}:{' '}
            <span className="num">stroke contrast {number(place.contrast, 1)}</span> under <i>{place.look}</i>, of all
            looks the one that parts its strokes best.
          </p>
          <p className="key-row">
            <button type="button" className="word" disabled={rank === 0} onClick={() => go(rank - 1)}>
              clearer
            </button>
            <button type="button" className="word" disabled={rank === told.length - 1} onClick={() => go(rank + 1)}>
              more doubtful
            </button>
            <button type="button" className="word" onClick={end}>
              end
            </button>
          </p>
        </>
      ) : (
        <p>
          {told?.length === 0 ? (
            <span className="soft">Nothing on this strip can be parted from its ground.</span>
          ) : (
            <button type="button" className="word plain" onClick={begin}>
              go from the clear to the doubtful, each place under the look that serves it best
            </button>
          )}
        </p>
      )}
    </>
  );
}

const placeOf = (rank: number, count: number): string =>
  `Place ${rank + 1} of ${count}${rank === 0 ? ', the clearest' : rank === count - 1 ? ', the most doubtful' : ''}`;
