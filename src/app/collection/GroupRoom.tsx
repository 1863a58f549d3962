import { useEffect, useMemo, useState } from 'react';
import {
  groupNotes,
  groupTitle,
  imageLeftWords,
  objectLabel,
  pairWords,
  partedWords,
  possibleMemberWords,
  tieWords,
} from '../../core/report/words/index.ts';
import { Sheet } from './Sheet.tsx';
import { SignedText } from './SignedText.tsx';
import { decide, labelOf } from './state/deciding.ts';
import { type Detail, useDetail } from './state/detail.ts';
import { useFaces, wantFaces } from './state/faces.ts';
import { choose, type GroupTold, pairAddress, useRooms } from './state/rooms.ts';

/** Members that one sheet holds. */
const sheetHolds = 24;

/** One group: its members on a sheet, and what is known of them beside it. */
export function GroupRoom({ group }: { group: GroupTold }) {
  const detail = useDetail(group.id);
  const all = useMemo(() => [...group.members, ...group.possibleMembers], [group]);
  const [from, setFrom] = useState(0);
  const shown = useMemo(() => all.slice(from, from + sheetHolds), [all, from]);
  useEffect(() => wantFaces(shown.map(({ scan }) => scan)), [shown]);
  const faces = useFaces();
  const lying = useMemo(
    () =>
      shown.flatMap(({ scan }) => {
        const face = faces[scan];
        return typeof face === 'object' ? [{ scan, face, turnDeg: detail?.turns[scan] ?? 0 }] : [];
      }),
    [shown, faces, detail],
  );
  return (
    <>
      <div className="spread">
        <Sheet
          label={`${groupTitle(group)}: ${all.length} faces at one scale`}
          lying={lying}
          caption={captionOf(all)}
        />
        {all.length > sheetHolds && (
          <p className="sheet-pages num">
            {from + 1} to {Math.min(all.length, from + sheetHolds)} of {all.length}{' '}
            <button
              type="button"
              className="word plain"
              disabled={from === 0}
              onClick={() => setFrom(from - sheetHolds)}
            >
              before
            </button>{' '}
            <button
              type="button"
              className="word plain"
              disabled={from + sheetHolds >= all.length}
              onClick={() => setFrom(from + sheetHolds)}
            >
              after
            </button>
          </p>
        )}
      </div>
      <Words group={group} detail={detail} />
    </>
  );
}

const captionOf = (all: readonly GroupTold['members'][number][]) => (scan: number) => {
  const member = all.find((one) => one.scan === scan);
  return member ? <Caption member={member} /> : null;
};

function Caption({ member }: { member: GroupTold['members'][number] }) {
  const chosen = useRooms((state) => state.chosen.includes(member.scan));
  const facts = [member.kind, member.documentDate, imageLeftWords(member)].filter(Boolean).join(', ');
  return (
    <button
      type="button"
      className="word plain sheet-name"
      aria-pressed={chosen}
      title={chosen ? 'Chosen; press to leave it' : 'Choose it for a decision'}
      onClick={() => choose(member.scan)}
    >
      {objectLabel(member)}
      <span className="soft num">{facts}</span>
    </button>
  );
}

function Words({ group, detail }: { group: GroupTold; detail: Detail | null }) {
  const members = group.members.map(({ scan }) => scan);
  const parted = useRooms(({ told }) => told?.groups.parted) ?? [];
  const own = new Set(members);
  const apart = parted.filter(({ sides }) => sides.some((side) => side.some(({ scan }) => own.has(scan))));
  const notes = [
    ...group.possibleMembers.map(possibleMemberWords),
    ...groupNotes(group),
    ...apart.map((one) => `kept apart: ${partedWords(one)}`),
  ];
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling region without other stops needs one
    <aside className="margin" aria-label="The group" tabIndex={0}>
      <h2>{groupTitle(group)}</h2>
      <p>Of one matrix or faithful copies of it.</p>
      <p className="num">Strength: {tieWords(group)}.</p>
      {group.leastLinks > 0 && (
        <p className="soft num">
          Independent links that would have to be false for it to fall in two: {group.leastLinks}.
        </p>
      )}
      {notes.length > 0 && (
        <ul className="notes">
          {notes.map((note, k) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: two notes may say the same
            <li key={k}>{note}</li>
          ))}
        </ul>
      )}
      <details className="links">
        <summary>What links them</summary>
        <ul>
          {detail?.links.map(({ a, b, ...pair }) => (
            <li key={`${a} ${b}`}>
              <a className="word plain" href={pairAddress(Number(a), Number(b))}>
                {labelOf(Number(a))} and {labelOf(Number(b))}
              </a>
              <span className="soft num">{pairWords(pair)}</span>
            </li>
          ))}
        </ul>
      </details>
      <SignedText label="Name of the group" act="Name it" send={(words) => decide({ kind: 'name', members, words })} />
      <SignedText label="Note" act="Add the note" long send={(words) => decide({ kind: 'note', members, words })} />
      <p className="soft">Press names below the faces to choose objects that belong together, or do not.</p>
    </aside>
  );
}
