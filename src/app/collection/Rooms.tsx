import { type ReactNode, useEffect } from 'react';
import { PageDrop } from '../bringIn/PageDrop.tsx';
import { useDark } from '../look/useTones.ts';
import { setState, useStore } from '../state/store.ts';
import { Basket } from './Basket.tsx';
import { ConflictSheet } from './ConflictSheet.tsx';
import { GroupRoom } from './GroupRoom.tsx';
import { Groups } from './Groups.tsx';
import { PairRoom } from './PairRoom.tsx';
import { SearchRoom } from './SearchRoom.tsx';
import { type Room, refresh, type Told, tell, useRooms } from './state/rooms.ts';
import { searchFor } from './state/searching.ts';
import { Tray } from './Tray.tsx';

/** The page of a collection: its rooms, what was chosen in any of them, and what a search by a dropped scan finds. */
export function Rooms() {
  const { told, trouble, room } = useRooms();
  const dark = useDark();
  useEffect(() => {
    document.documentElement.dataset.ground = dark ? 'ink' : 'paper';
  }, [dark]);
  return (
    <Dropped>
      <div className={`page rooms at-${room.at}`}>
        <Head room={room} />
        {trouble && !told && (
          <main className="room-words">
            <p role="alert">{trouble}</p>
            <button type="button" className="deed" onClick={() => void refresh()}>
              Try again
            </button>
          </main>
        )}
        {told && (
          <main className="room">
            <InRoom {...{ room, told }} />
          </main>
        )}
        <Basket />
        {told && <ConflictSheet told={told} />}
        <Notice />
      </div>
    </Dropped>
  );
}

function InRoom({ room, told }: { room: Room; told: Told }) {
  if (room.at === 'tray') return <Tray told={told} />;
  if (room.at === 'groups') return <Groups told={told} />;
  if (room.at === 'search') return <SearchRoom />;
  if (room.at === 'pair') return <PairRoom key={`${room.a}-${room.b}`} a={room.a} b={room.b} />;
  const group = told.groups.groups.find(({ id }) => id === room.id);
  if (group) return <GroupRoom key={group.id} group={group} />;
  return (
    <p className="room-words">
      This group is no longer there: its members may have been split or joined with others.{' '}
      <a className="word plain" href="#groups">
        All groups
      </a>
    </p>
  );
}

const rooms = [
  { at: 'tray', words: 'tray' },
  { at: 'groups', words: 'groups' },
  { at: 'search', words: 'search' },
] as const;

function Head({ room }: { room: Room }) {
  const within = room.at === 'group' ? 'groups' : room.at;
  return (
    <header className="running-head">
      <h1>Collection</h1>
      <nav aria-label="Rooms">
        <ol>
          {rooms.map(({ at, words }) => (
            <li key={at}>
              <a className="word sc" href={`#${at}`} aria-current={within === at ? 'step' : undefined}>
                {words}
              </a>
            </li>
          ))}
        </ol>
      </nav>
      <div className="aside">
        <a className="word" href="../">
          the plate
        </a>
        <SchemeWord />
      </div>
    </header>
  );
}

function SchemeWord() {
  const dark = useDark();
  const scheme = useStore((state) => state.scheme);
  return (
    <button type="button" className="word" onClick={() => setState({ scheme: dark ? 'light' : 'dark' })}>
      {scheme === 'system' ? 'ground: as the system' : dark ? 'ground: ink' : 'ground: paper'}
    </button>
  );
}

/** One sentence, until it is read. */
function Notice() {
  const notice = useRooms((state) => state.notice);
  return (
    <div role="status">
      {notice && (
        <div className="notice">
          <p>{notice}</p>
          <button type="button" className="word" onClick={() => tell(null)}>
            read
          </button>
        </div>
      )}
    </div>
  );
}

/** The whole page takes a scan to search by. */
const Dropped = ({ children }: { children: ReactNode }) => (
  <PageDrop
    words="Lay the scan down here: the collection is searched by it."
    onFiles={async ([first, ...more]) => {
      if (!first) return;
      tell(more.length > 0 ? `One scan is searched for at a time: ${first.name} is.` : null);
      await searchFor(first.file as File);
    }}
  >
    {children}
  </PageDrop>
);
