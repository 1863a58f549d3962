import { useEffect, useState } from 'react';
import { number } from '../look/numbers.ts';
import { addPair, completePairs, movePlace, removePair, startBySearch, startFromPairs } from '../state/byHand.ts';
import type { MarkedPair } from '../state/document.ts';
import { actOnView, documentNow, setState, useDocument, useStore } from '../state/store.ts';

/** Pairs of places for a pair on which the search fails, or to see whether another fit holds: marked, numbered, removable. */
export function ByHand({ searchFailed }: { searchFailed: boolean }) {
  const pairs = useDocument((document) => document.pairs);
  const hand = useStore((state) => state.hand);
  const complete = completePairs(pairs).length;
  const [open, setOpen] = useState(searchFailed || pairs.length > 0);
  useEffect(() => {
    if (hand === 'pairs') setOpen(true);
  }, [hand]);
  // Whoever leaves the step has put the tool down.
  useEffect(() => () => setState((state) => (state.hand === 'pairs' ? { hand: 'look' } : state)), []);
  return (
    <details className="by-hand" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>Lay on by hand</summary>
      <p>
        Mark the same place on both seals, three times, far apart: a corner of a letter, the end of a line. A millimetre
        beside is near enough.
      </p>
      <div className="deeds">
        <button type="button" className="word plain" aria-pressed={hand === 'pairs'} onClick={toggleMarking}>
          {hand === 'pairs' ? 'marking: click on a, then on b' : 'mark places on the plate'}
        </button>
        <button type="button" className="word" onClick={addPair}>
          add a pair by numbers
        </button>
      </div>
      {pairs.length > 0 && (
        <ol className="pairs num">
          {pairs.map((pair, i) => (
            <PairEntry key={pair.id} pair={pair} number={i + 1} />
          ))}
        </ol>
      )}
      {pairs.length > 0 && (
        <div className="deeds">
          <button type="button" className="deed" disabled={complete < 2} onClick={fitFromPairs}>
            Fit from these places
          </button>
          <span className="soft">{countWords(complete)}</span>
        </div>
      )}
    </details>
  );
}

export function toggleMarking(): void {
  setState((state) => ({ hand: state.hand === 'pairs' ? 'look' : 'pairs' }));
  if (documentNow().view.look !== 'pair') actOnView('Looked at otherwise', { look: 'pair' });
}

function fitFromPairs(): void {
  startFromPairs();
  setState({ hand: 'look', rivalTurnDeg: null });
}

const countWords = (complete: number): string =>
  complete < 2
    ? `${2 - complete} more ${complete === 1 ? 'pair is' : 'pairs are'} needed`
    : complete === 2
      ? 'two will do; a third is surer'
      : `${complete} pairs`;

function PairEntry({ pair, number: n }: { pair: MarkedPair; number: number }) {
  return (
    <li>
      <span className="mark-number">{n}</span>
      <Place pair={pair} side="reference" letter="a" n={n} />
      <Place pair={pair} side="subject" letter="b" n={n} />
      <button type="button" className="word" aria-label={`remove pair ${n}`} onClick={() => removePair(pair.id)}>
        remove
      </button>
    </li>
  );
}

function Place(props: { pair: MarkedPair; side: 'reference' | 'subject'; letter: string; n: number }) {
  const { pair, side, letter, n } = props;
  const at = pair[side];
  if (!at) return <span className="soft">{letter}: not yet</span>;
  const field = (axis: 0 | 1, words: string) => (
    <input
      key={at[axis]}
      type="text"
      inputMode="decimal"
      size={4}
      aria-label={`Place ${n} on ${letter}, mm ${words}`}
      defaultValue={number(at[axis], 1)}
      onBlur={(event) => {
        const value = Number.parseFloat(event.target.value.replace('−', '-').replace(',', '.'));
        if (Number.isFinite(value) && event.target.value !== number(at[axis], 1))
          movePlace(pair.id, side, axis === 0 ? [value, at[1]] : [at[0], value]);
      }}
    />
  );
  return (
    <span>
      <span className="soft">{letter}</span> {field(0, 'across')} {field(1, 'up')}
    </span>
  );
}

/** That the fit on the plate began by hand, and the way back. */
export function StartWords() {
  const start = useDocument((document) => document.start);
  if (!start) return null;
  return (
    <p className="doubt">
      {start.from === 'pairs'
        ? `This fit began at ${start.pairs.length} pairs of places marked by hand.`
        : `This fit began at a turn chosen by hand, ${number(start.turnDeg, 0)}° from the one that the search prefers.`}{' '}
      <button type="button" className="word plain" onClick={startBySearch}>
        leave it to the search again
      </button>
    </p>
  );
}
