import { useId, useMemo, useRef, useState } from 'react';
import { kindWords } from '../frame/words.ts';
import { mm } from '../look/numbers.ts';
import { useWindow } from '../look/useWindow.ts';
import { UprightStill } from '../plate/UprightStill.tsx';
import type { ScanEntry } from '../state/document.ts';
import { bringTogether, layOnPlate } from '../state/scans.ts';
import { useDocument, useStore } from '../state/store.ts';
import { ScanCard } from './ScanCard.tsx';
import { type RowOrder, rowOrders, scanRows } from './scanRows.ts';

/** As the style sheet has them, with a mouse and under a finger. */
const rowPx = matchMedia('(pointer: coarse)').matches ? 100 : 68;
const carried = 'application/x-ectype-scan';

/** Many scans: searched, sorted, as much drawn as is seen; the card of the one that is looked at below them. */
export function ScanTray({ scans }: { scans: readonly ScanEntry[] }) {
  const faces = useStore((state) => state.faces);
  const sortId = useId();
  const [words, setWords] = useState('');
  const [order, setOrder] = useState<RowOrder>('name');
  const [open, setOpen] = useState<string | null>(null);
  const { rows, unreadable } = useMemo(() => scanRows(scans, faces, words, order), [scans, faces, words, order]);
  const body = useRef<HTMLDivElement>(null);
  const { from, to } = useWindow(body, rows.length, rowPx);
  const looked = scans.find(({ id }) => id === open);
  return (
    <>
      {unreadable.length > 0 && <Unreadable scans={unreadable} />}
      <div className="scan-tray-head">
        <label>
          Find <input type="text" value={words} onChange={(event) => setWords(event.target.value)} />
        </label>
        <label htmlFor={sortId}>sorted by</label>
        <span>
          <select id={sortId} value={order} onChange={(event) => setOrder(event.target.value as RowOrder)}>
            {rowOrders.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </select>
        </span>
        <span className="soft num" role="status">
          {rows.length} of {scans.length - unreadable.length}
        </span>
      </div>
      <div className="scan-tray" ref={body}>
        <ul aria-label="Scans" style={{ paddingTop: from * rowPx, paddingBottom: (rows.length - to) * rowPx }}>
          {rows.slice(from, to).map((scan) => (
            <Row key={scan.id} scan={scan} open={scan.id === open} onOpen={setOpen} />
          ))}
        </ul>
      </div>
      <p className="soft">Lay two on the plate, or draw one onto another, and they are compared.</p>
      {looked && (
        <ul className="cards">
          <ScanCard key={looked.id} scan={looked} />
        </ul>
      )}
    </>
  );
}

function Row({ scan, open, onOpen }: { scan: ScanEntry; open: boolean; onOpen(id: string | null): void }) {
  const face = useStore(({ faces }) => faces[scan.id]);
  const at = useDocument(({ referenceId, subjectId }) => [referenceId, subjectId].indexOf(scan.id));
  const view = face?.at === 'ready' ? face.value : null;
  const facts = view
    ? `${kindWords[view.kind].toLowerCase()}, ${mm(Math.max(view.outline.widthMm, view.outline.heightMm), 0)}`
    : face?.at === 'failed'
      ? 'asks for its unit'
      : 'not read yet';
  return (
    <li
      className="scan-row"
      draggable
      onDragStart={(event) => event.dataTransfer.setData(carried, scan.id)}
      onDragOver={(event) => event.dataTransfer.types.includes(carried) && event.preventDefault()}
      onDrop={(event) => {
        const other = event.dataTransfer.getData(carried);
        if (!other) return;
        // Not a file: nothing is brought in.
        event.stopPropagation();
        event.preventDefault();
        if (other !== scan.id) bringTogether(other, scan.id);
      }}
    >
      <span aria-hidden="true">
        {view ? <UprightStill face={view} name={scan.title} /> : <span className="blank" />}
      </span>
      <button
        type="button"
        className="word plain scan-row-card"
        aria-expanded={open}
        title="Its card: caption, kind, material, unit"
        onClick={() => onOpen(open ? null : scan.id)}
      >
        {scan.title}
      </button>
      <span className="soft num">{facts}</span>
      <button type="button" className="word" aria-pressed={at >= 0} onClick={() => layOnPlate(scan.id)}>
        {at >= 0 ? `on the plate, as ${'ab'[at]}` : 'lay on the plate'}
      </button>
    </li>
  );
}

/** What could not be read, in one line that unfolds. */
function Unreadable({ scans }: { scans: readonly ScanEntry[] }) {
  const [shown, setShown] = useState(false);
  return (
    <details onToggle={(event) => setShown(event.currentTarget.open)}>
      <summary>{scans.length === 1 ? '1 scan' : `${scans.length} scans`} could not be read</summary>
      {shown && (
        <ul className="cards">
          {scans.map((scan) => (
            <ScanCard key={scan.id} scan={scan} />
          ))}
        </ul>
      )}
    </details>
  );
}
