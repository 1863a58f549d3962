import { lineWords, placeOfMark, readingWords } from '../../core/report/words/index.ts';
import { number } from '../look/numbers.ts';
import { pointAtMark } from '../plate/Outlines.tsx';
import { leaveOut } from '../state/byHand.ts';
import type { ShownMark } from '../state/marks.ts';
import { useMarks } from '../state/marks.ts';
import { plateXFromReference } from '../state/onPlate.ts';
import { usePair } from '../state/select.ts';
import { act, actOnView, setState, useDocument, useStore } from '../state/store.ts';
import { LeftOutList } from './LeftOutList.tsx';
import { RoundRegion } from './RoundRegion.tsx';

/** The marks on both objects, numbered as on the plate; each can be given another name or be left out of the measuring. */
export function Marks() {
  const marks = useMarks();
  const outlines = useDocument((document) => document.view.outlines);
  const { comparison } = usePair();
  const weighing = comparison?.judgement === null && !comparison.stated;
  return (
    <>
      <h3>Marks</h3>
      {weighing && <p role="status">Marks are being looked for.</p>}
      {marks.length === 0 && !weighing && (
        <p className="soft">None found. A region of your own can be marked on the plate.</p>
      )}
      <ol className="marks">
        {marks.map((mark) => (
          <MarkEntry key={mark.id} mark={mark} />
        ))}
      </ol>
      {marks.length > 0 && (
        <button type="button" className="word" onClick={() => actOnView('Outlines', { outlines: !outlines })}>
          {outlines ? 'hide the pointers' : 'show the pointers'}
        </button>
      )}
      <RoundRegion />
      <LeftOutList />
    </>
  );
}

function MarkEntry({ mark }: { mark: ShownMark }) {
  const open = useStore((state) => state.selectedMark === mark.id);
  const turnDeg = useStore((state) => state.turnDeg);
  const { reference } = usePair();
  return (
    <li className="mark">
      <button
        type="button"
        className="word plain mark-name"
        aria-expanded={open}
        onClick={() => pointAtMark(open ? null : mark)}
        onPointerEnter={() => setState({ pointedMark: mark.id })}
        onPointerLeave={() => setState({ pointedMark: null })}
        onFocus={() => setState({ pointedMark: mark.id })}
        onBlur={() => setState({ pointedMark: null })}
      >
        <span className="mark-number">{mark.number}</span> {mark.label}
      </button>{' '}
      <span className="soft">{placeWords(mark, turnDeg, plateXFromReference(reference))}</span>
      {open && <MarkDetail mark={mark} />}
    </li>
  );
}

function MarkDetail({ mark }: { mark: ShownMark }) {
  const offline = useStore((state) => state.offline);
  return (
    <div className="mark-detail">
      {mark.found && (
        <p className="num">
          {number(mark.found.areaMm2, 1)} mm², {number(Math.abs(mark.found.depthMm), 2)} mm{' '}
          {mark.found.depthMm < 0 ? 'deep' : 'high'}, {number(Math.abs(mark.found.volumeMm3), 2)} mm³. On b{' '}
          {onSubject[mark.found.onSubject]}.
        </p>
      )}
      {mark.found?.section && <p>{lineWords(mark.found.section)}</p>}
      {(mark.found?.readings.map(readingWords) ?? mark.stated)?.map((line) => (
        <p key={line}>{line}</p>
      ))}
      <p className="seats">
        <label>
          <span className="unseen">Name of mark {mark.number}</span>
          <input
            type="text"
            defaultValue={mark.label}
            onBlur={(event) => event.target.value !== mark.label && rename(mark, event.target.value)}
          />
        </label>
        {!offline && mark.outline.length > 2 && (
          <button
            type="button"
            className="word"
            title="Nothing is measured on it any more: repairs, tags, modern damage"
            onClick={() => leaveOut(mark)}
          >
            leave it out
          </button>
        )}
        {mark.own && (
          <button type="button" className="word" onClick={() => rub(mark.id)}>
            rub out
          </button>
        )}
      </p>
    </div>
  );
}

const onSubject = { raised: 'it stands raised', sunk: 'it is sunk', absent: 'it is absent' } as const;

function placeWords({ found, stated }: ShownMark, turnDeg: number, flip: 1 | -1): string {
  if (stated) return 'stated by the file';
  if (!found) return 'marked by you';
  const carrier = { reference: 'on a', subject: 'on b', both: 'on both' }[found.carriedBy];
  return `${carrier}, ${placeOfMark(found, turnDeg, flip)}`;
}

function note(id: string, change: { label?: string }): void {
  act('Mark changed', (document) => ({
    ...document,
    marks: { ...document.marks, [id]: { ...document.marks[id], ...change } },
  }));
}

function rename(mark: ShownMark, label: string): void {
  if (!mark.own) {
    note(mark.id, { label: label || undefined });
    return;
  }
  act('Region named', (document) => ({
    ...document,
    ownMarks: document.ownMarks.map((own) => (own.id === mark.id ? { ...own, label } : own)),
  }));
}

function rub(id: string): void {
  act('Region rubbed out', (document) => ({
    ...document,
    ownMarks: document.ownMarks.filter((own) => own.id !== id),
  }));
}
