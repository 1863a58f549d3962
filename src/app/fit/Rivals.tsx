import type { Fit } from '../../core/fit/index.ts';
import { number } from '../look/numbers.ts';
import { Still } from '../plate/NoGraphics.tsx';
import { startFromTurn } from '../state/byHand.ts';
import { usePair } from '../state/select.ts';
import { setState, useStore } from '../state/store.ts';

/** Other turns that fit nearly as well: a design that repeats itself fits several ways but for its legend. */
export function Rivals({ fit }: { fit: Fit }) {
  const { subject } = usePair();
  const rival = useStore((state) => state.rivalTurnDeg);
  const offline = useStore((state) => state.offline);
  if (fit.rivalTurns.length === 0 || !subject) return <p className="soft">No other turn fits nearly as well.</p>;
  const all = [{ turnDeg: 0, score: fit.score }, ...fit.rivalTurns];
  return (
    <>
      <h3>Rival turns</h3>
      <ul className="rivals">
        {all.map(({ turnDeg, score }) => (
          <li key={turnDeg}>
            <button
              type="button"
              className="rival"
              aria-pressed={(rival ?? 0) === turnDeg}
              onClick={() => setState({ rivalTurnDeg: turnDeg === 0 ? null : turnDeg })}
            >
              <span className="rival-picture" style={{ transform: `rotate(${turnDeg}deg)` }}>
                <Still picture={subject.thumbnail} name="" />
              </span>
              {turnDeg === 0 ? 'chosen' : `${number(turnDeg, 0)}°`}
              <span className="soft">{number(score, 2)}</span>
            </button>
          </li>
        ))}
      </ul>
      {rival !== null && (
        <>
          <p className="soft">
            The subject is shown at the rival turn, to look at. Everything measured still rests on the chosen one.
          </p>
          {!offline && (
            <div className="deeds">
              <button
                type="button"
                className="deed"
                onClick={() => {
                  startFromTurn((fit.start?.fromSearchDeg ?? 0) + rival);
                  setState({ rivalTurnDeg: null });
                }}
              >
                Fit from this turn
              </button>
            </div>
          )}
        </>
      )}
    </>
  );
}
