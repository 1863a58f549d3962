import { useEffect, useRef } from 'react';
import { decide, endConflict, labelOf, type Order, useConflict } from './state/deciding.ts';
import { groupsByScan, type Told } from './state/rooms.ts';

/** Somebody else decided on these objects meanwhile: both versions side by side, and the person chooses. */
export function ConflictSheet({ told }: { told: Told }) {
  const conflict = useConflict((state) => state.conflict);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (conflict) dialog.current?.showModal();
    else dialog.current?.close();
  }, [conflict]);
  return (
    <dialog ref={dialog} className="conflict" aria-labelledby="conflict-title" onClose={endConflict}>
      {conflict && (
        <>
          <h2 id="conflict-title">Somebody decided on these objects while you did</h2>
          <div className="conflict-sides">
            <section aria-label="What stands">
              <h3>what stands</h3>
              {conflict.newer.map(({ kind, members, by, at, words }) => (
                <p key={at + kind}>
                  <b>{by}</b>, {at.slice(0, 16).replace('T', ', ')}: {toldAs(kind, members.map(Number), words)}
                </p>
              ))}
              {conflict.gone.map((scan) => (
                <p key={scan}>Object {scan} was taken out of the collection.</p>
              ))}
              <Now told={told} order={conflict.mine} />
              <button type="button" className="deed" onClick={endConflict}>
                Keep what stands
              </button>
            </section>
            <section aria-label="What you decide">
              <h3>what you decide</h3>
              <p>{toldAs(conflict.mine.kind, conflict.mine.members, conflict.mine.words)}</p>
              <p className="soft">Decided after the other, it holds where the two disagree; both stay on record.</p>
              <button
                type="button"
                className="deed"
                disabled={conflict.gone.length > 0}
                onClick={() => void decide(conflict.mine)}
              >
                Decide mine as well
              </button>
            </section>
          </div>
        </>
      )}
    </dialog>
  );
}

const acts: Readonly<Record<Order['kind'], string>> = {
  join: 'of one matrix',
  split: 'no two of one matrix',
  name: 'the group is named',
  note: 'noted',
};

/** A decision in words: what, of which objects, and why. */
function toldAs(kind: Order['kind'], members: readonly number[], words: string): string {
  return `${acts[kind]}${words ? `, “${words}”` : ''}: ${members.map(labelOf).join('; ')}`;
}

/** Where the objects stand now. */
function Now({ told, order }: { told: Told; order: Order }) {
  const groups = groupsByScan(told);
  const names = new Set(order.members.map((scan) => groups.get(scan)?.name ?? groups.get(scan)?.id ?? null));
  const named = [...names].flatMap((name) => (name === null ? [] : [`in ${name}`]));
  const all = names.has(null) ? [...named, 'in no group'] : named;
  return <p className="soft">They stand now {all.join(' and ')}.</p>;
}
