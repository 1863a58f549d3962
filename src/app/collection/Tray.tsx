import { type ReactNode, useMemo, useRef, useState } from 'react';
import { objectLabel } from '../../core/report/words/index.ts';
import { sizeMm } from '../look/numbers.ts';
import { useWindow } from '../look/useWindow.ts';
import { ChooseScan } from './ChooseScan.tsx';
import {
  choose,
  type GroupTold,
  groupsByScan,
  pairAddress,
  type ScanTold,
  type Told,
  useRooms,
} from './state/rooms.ts';
import { type ColumnName, columns, sortedRows, type TrayRow, trayRows } from './trayRows.ts';

const rowPx = 58;

/** The collection as a table: searched, sorted, and only as much of it drawn as is seen. */
export function Tray({ told }: { told: Told }) {
  const [words, setWords] = useState('');
  const [sort, setSort] = useState<{ by: ColumnName; down: boolean }>({ by: 'shelfmark', down: false });
  const groups = useMemo(() => groupsByScan(told), [told]);
  const rows = useMemo(() => sortedRows(trayRows(told.scans, groups, words), sort), [told, groups, words, sort]);
  const body = useRef<HTMLDivElement>(null);
  const { from, to } = useWindow(body, rows.length, rowPx);
  const failed = told.scans.filter(({ state }) => state === 'failed');
  return (
    <section className="tray" aria-label="Tray">
      <div className="tray-head">
        <label>
          Find in the tray <input type="text" value={words} onChange={(event) => setWords(event.target.value)} />
        </label>
        <p className="soft num" role="status">
          {rows.length} of {told.scans.length - failed.length} scans
          {told.jobsLeft > 0 && `; ${told.jobsLeft} jobs are not done yet, ectype worker goes on with them`}
        </p>
        <ChooseScan />
      </div>
      <section
        className="tray-body"
        ref={body}
        aria-label="Scans of the tray"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling region must be reached with the keyboard
        tabIndex={0}
      >
        <table aria-rowcount={rows.length + 1}>
          <thead>
            <tr aria-rowindex={1}>
              {columns.map(({ name, title }) => (
                <th
                  key={name}
                  scope="col"
                  className={`of-${name}`}
                  aria-sort={sort.by === name ? (sort.down ? 'descending' : 'ascending') : undefined}
                >
                  <button
                    type="button"
                    className="word sc"
                    onClick={() => setSort({ by: name, down: sort.by === name && !sort.down })}
                  >
                    {title}
                    {sort.by === name && (sort.down ? ' ↓' : ' ↑')}
                  </button>
                </th>
              ))}
            </tr>
          </thead>
          <Unseen rows={from} />
          <tbody>
            {rows.slice(from, to).map((row, k) => (
              <Row key={row.scan.scan} {...row} index={from + k} />
            ))}
          </tbody>
          <Unseen rows={rows.length - to} />
        </table>
      </section>
      <Unused failed={failed} removed={told.removed} />
    </section>
  );
}

/** The height of rows that are not drawn. */
const Unseen = ({ rows }: { rows: number }) =>
  rows > 0 ? (
    <tbody aria-hidden="true">
      <tr style={{ height: rows * rowPx }} />
    </tbody>
  ) : null;

function Row({ scan, group, index }: TrayRow & { index: number }) {
  const chosen = useRooms((state) => state.chosen.includes(scan.scan));
  const label = objectLabel(scan);
  return (
    <tr
      className={chosen ? 'is-chosen' : undefined}
      aria-rowindex={index + 2}
      draggable
      onDragStart={(event) => event.dataTransfer.setData(carried, String(scan.scan))}
      onDragOver={(event) => event.dataTransfer.types.includes(carried) && event.preventDefault()}
      onDrop={(event) => {
        const other = Number(event.dataTransfer.getData(carried));
        if (other && other !== scan.scan) location.hash = pairAddress(other, scan.scan);
      }}
    >
      <td>
        <label className="tray-name">
          <input type="checkbox" aria-label={`choose ${label}`} checked={chosen} onChange={() => choose(scan.scan)} />
          {scan.picture ? (
            <img src={scan.picture} alt="" loading="lazy" draggable={false} />
          ) : (
            <span className="blank" />
          )}
          <b>{label}</b>
        </label>
      </td>
      <Cell>{scan.kind}</Cell>
      <Cell>{scan.material}</Cell>
      <Cell>{scan.widthMm && scan.heightMm ? sizeMm(scan.widthMm, scan.heightMm) : ''}</Cell>
      <Cell>{scan.documentDate}</Cell>
      <Cell>{group ? <GroupLink group={group} /> : scan.state === 'waiting' ? 'not read yet' : ''}</Cell>
    </tr>
  );
}

const carried = 'application/x-ectype-scan';

const Cell = ({ children }: { children: ReactNode }) => <td className="num">{children}</td>;

export const GroupLink = ({ group }: { group: GroupTold }) => (
  <a className="word plain" href={`#${group.id}`}>
    {group.name ?? group.id}
  </a>
);

/** What could not be read, and what was taken out, each in one line that unfolds. */
function Unused({ failed, removed }: { failed: readonly ScanTold[]; removed: Told['removed'] }) {
  if (failed.length + removed.length === 0) return null;
  return (
    <div className="tray-unused">
      {failed.length > 0 && (
        <details>
          <summary>{failed.length === 1 ? '1 scan' : `${failed.length} scans`} could not be used</summary>
          <ul>
            {failed.map((scan) => (
              <li key={scan.scan}>
                <b>{objectLabel(scan)}</b> ({scan.file}): {scan.error}
              </li>
            ))}
          </ul>
        </details>
      )}
      {removed.length > 0 && (
        <details>
          <summary>{removed.length === 1 ? '1 scan was' : `${removed.length} scans were`} taken out</summary>
          <ul>
            {removed.map(({ shelfmark, by, at, words }) => (
              <li key={`${shelfmark} ${at}`}>
                <b>{shelfmark}</b>, by {by}, {at.slice(0, 10)}
                {words && `: ${words}`}
              </li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}
