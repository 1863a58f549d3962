import { useState } from 'react';
import { Signature } from './SignedText.tsx';
import { decide, labelOf, takeOut } from './state/deciding.ts';
import { choose, pairAddress, setRooms, useRooms } from './state/rooms.ts';

/** What was chosen, in whichever room, and what can be decided of it. */
export function Basket() {
  const chosen = useRooms((state) => state.chosen);
  const [words, setWords] = useState('');
  const [asked, setAsked] = useState(false);
  if (chosen.length === 0) return null;
  const send = async (kind: 'join' | 'split'): Promise<void> => {
    if (!(await decide({ kind, members: chosen, words }))) return;
    setWords('');
    setRooms({ chosen: [] });
  };
  const several = chosen.length > 1;
  return (
    <section className="basket" aria-label="Chosen">
      <p className="basket-names">
        <span className="soft">Chosen:</span>
        {chosen.slice(0, 12).map((scan) => (
          <button key={scan} type="button" className="word plain" title="Leave it" onClick={() => choose(scan)}>
            {labelOf(scan)}
          </button>
        ))}
        {chosen.length > 12 && <span className="soft num">and {chosen.length - 12} more</span>}
      </p>
      <div className="basket-acts">
        {chosen.length === 2 && (
          <a className="word plain" href={pairAddress(chosen[0], chosen[1])}>
            Lay the two beside one another
          </a>
        )}
        <label className="basket-words">
          why <input type="text" value={words} onChange={(event) => setWords(event.target.value)} />
        </label>
        <Signature />
        {several && (
          <>
            <button type="button" className="deed" onClick={() => void send('join')}>
              Join: of one matrix
            </button>
            <button type="button" className="deed" onClick={() => void send('split')}>
              Split: no two of one matrix
            </button>
          </>
        )}
        {asked ? (
          <>
            <span role="alert">The scans’ files stay where they are. Take out?</span>
            <button
              type="button"
              className="deed"
              onClick={() => {
                setAsked(false);
                void takeOut(chosen, words);
              }}
            >
              Take out {chosen.length === 1 ? 'this scan' : `these ${chosen.length} scans`}
            </button>
            <button type="button" className="word plain" onClick={() => setAsked(false)}>
              Leave them
            </button>
          </>
        ) : (
          <button type="button" className="word" onClick={() => setAsked(true)}>
            take out of the collection
          </button>
        )}
        <button type="button" className="word" onClick={() => setRooms({ chosen: [] })}>
          choose none
        </button>
      </div>
    </section>
  );
}
