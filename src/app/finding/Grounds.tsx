import { type KeyboardEvent, useEffect, useRef } from 'react';
import type { Ground, Speaks } from '../../core/report/index.ts';
import { uncapital } from '../../core/scan/index.ts';
import { showGround, useGround, useGrounds } from '../state/ground.ts';
import { useMarks } from '../state/marks.ts';
import { usePair } from '../state/select.ts';
import { SizeChain } from './SizeChain.tsx';

const sides: Readonly<Record<Speaks, string>> = {
  for: 'speaks for one matrix',
  against: 'speaks against one matrix',
  neither: 'says how, not whether',
  inTheWay: 'stands in the way',
};

/** Why: the grounds in the order of their weight. Each takes over the plate in one act; arrow keys go from one to the next. */
export function Grounds() {
  const grounds = useGrounds();
  const shown = useGround();
  const marks = useMarks();
  // Whoever leaves the step takes the plate back.
  useEffect(() => () => showGround(null), []);
  const list = useRef<HTMLOListElement>(null);
  const open = shown?.code;
  // The one before folds up, and would take the head of this one with it.
  useEffect(() => {
    if (open) list.current?.querySelector('[aria-expanded="true"]')?.scrollIntoView({ block: 'nearest' });
  }, [open]);
  if (grounds.length === 0) return null;
  const onKey = (event: KeyboardEvent<HTMLOListElement>): void => {
    const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (by === undefined) return;
    const heads = [...event.currentTarget.querySelectorAll<HTMLButtonElement>('.ground-head')];
    const at = heads.indexOf(document.activeElement as HTMLButtonElement);
    heads[Math.min(heads.length - 1, Math.max(0, at + by))]?.focus();
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <>
      <h3>Why</h3>
      <ol className="grounds" ref={list} onKeyDown={onKey}>
        {grounds.map((ground) => (
          <li key={ground.code} className={`ground-item ${ground.speaks}`}>
            <button
              type="button"
              className="ground-head"
              aria-expanded={shown?.code === ground.code}
              onClick={() => showGround(shown?.code === ground.code ? null : ground, marks)}
            >
              <span className="ground-title">{ground.title}</span>
              <span className="ground-figure num">{ground.figure}</span>
              <span className="ground-side">
                {ground.code === 'size' && ground.speaks === 'against' ? 'speaks for a copy' : sides[ground.speaks]}
                {ground.decided && ', and decided'}
              </span>
            </button>
            {shown?.code === ground.code && <Told ground={ground} />}
          </li>
        ))}
      </ol>
    </>
  );
}

function Told({ ground }: { ground: Ground }) {
  const { comparison } = usePair();
  const cells = comparison?.judgement?.cells;
  const apart = cells && cells.congruent < cells.compared;
  return (
    <div className="ground-told" role="status">
      <p>{ground.says}</p>
      {ground.code === 'size' && comparison?.difference && <SizeChain size={comparison.difference.size} />}
      {ground.code === 'cells' && apart && <CellSigns />}
      <p>
        <b>Against it.</b> {ground.against}
      </p>
      <p>
        <b>It would be overturned by</b> {uncapital(ground.overturn)}
      </p>
      <details>
        <summary>how it was measured</summary>
        <p>{ground.how}</p>
      </details>
    </div>
  );
}

/** What the signs in cells that are not lit say. */
function CellSigns() {
  return (
    <p className="cell-signs soft">
      <svg width={20} height={14} aria-hidden="true">
        <path d="M4 4q3 -5 6 0t6 0M4 11q3 -5 6 0t6 0" />
      </svg>{' '}
      looks too different{' '}
      <svg width={20} height={14} aria-hidden="true">
        <path d="M3 7H16M12 3L16 7L12 11" />
      </svg>{' '}
      lies shifted or turned
    </p>
  );
}
