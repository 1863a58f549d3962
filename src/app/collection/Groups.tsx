import { useMemo } from 'react';
import {
  groupingSummary,
  groupTitle,
  objectLabel,
  partedBy,
  partedTitle,
  sidesWords,
  tieWords,
} from '../../core/report/words/index.ts';
import type { GroupTold, ScanTold, Told } from './state/rooms.ts';

/** Pixels of a picture for each millimetre of its face: all at one scale. */
const pxPerMm = 2.2;

/** All groups, each with small pictures of its members. */
export function Groups({ told }: { told: Told }) {
  const { groups } = told;
  const scans = useMemo(() => new Map(told.scans.map((scan) => [scan.scan, scan])), [told]);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling region must be reached with the keyboard
    <section className="groups" aria-label="Groups" tabIndex={0}>
      <p>{groups.caution}</p>
      <p className="soft num">{groupingSummary(groups)}.</p>
      {groups.sides.map((sides) => (
        <p key={sides.groups.join()}>{sidesWords(sides)}</p>
      ))}
      {groups.groups.map((group) => (
        <Row key={group.id} {...{ group, scans }} />
      ))}
      {groups.parted.length > 0 && (
        <section className="parted" aria-label="Kept apart">
          <h2>Kept apart</h2>
          <p>{partedTitle}.</p>
          <ul>
            {groups.parted.map((one) => (
              <li key={one.sides.map(([first]) => first.scan).join()}>
                {one.sides.map((side) => side.map(objectLabel).join('; ')).join(' / ')}{' '}
                <span className="soft num">{partedBy(one)}</span>
              </li>
            ))}
          </ul>
        </section>
      )}
      {groups.waiting.length > 0 && (
        <details>
          <summary>
            {groups.waiting.length === 1 ? '1 pair is' : `${groups.waiting.length} pairs are`} supported, but too weak
            alone to tie, or outweighed by what speaks against
          </summary>
          <ul>
            {groups.waiting.map(({ a, b, score }) => (
              <li key={`${a.scan} ${b.scan}`}>
                <a className="word plain" href={`#pair-${a.scan}-${b.scan}`}>
                  {objectLabel(a)} and {objectLabel(b)}
                </a>{' '}
                <span className="soft num">score {score.toFixed(1)}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
      {groups.single.length > 0 && (
        <p className="soft">
          In no group: {groups.single.slice(0, 40).map(objectLabel).join('; ')}
          {groups.single.length > 40 && `; and ${groups.single.length - 40} more, in the tray`}.
        </p>
      )}
    </section>
  );
}

function Row({ group, scans }: { group: GroupTold; scans: ReadonlyMap<number, ScanTold> }) {
  const all = [...group.members, ...group.possibleMembers];
  return (
    <article className="group-row">
      <h2>
        <a href={`#${group.id}`}>{groupTitle(group)}</a>
      </h2>
      <p className="soft num">
        {group.members.length} members
        {group.possibleMembers.length > 0 && `, ${group.possibleMembers.length} possible`}; {tieWords(group)}
      </p>
      <a className="group-pictures" href={`#${group.id}`}>
        {all.slice(0, 24).map(({ scan, shelfmark }) => (
          <Picture key={scan} scan={scans.get(scan)} shelfmark={shelfmark} />
        ))}
      </a>
    </article>
  );
}

function Picture({ scan, shelfmark }: { scan: ScanTold | undefined; shelfmark: string }) {
  const width = scan?.widthMm ? { width: Math.round(pxPerMm * scan.widthMm) } : undefined;
  return (
    <figure>
      {scan?.picture && <img src={scan.picture} alt="" loading="lazy" style={width} />}
      <figcaption>{shelfmark}</figcaption>
    </figure>
  );
}
