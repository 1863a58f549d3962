import { type ComponentType, lazy, Suspense } from 'react';
import { BringIn } from '../bringIn/BringIn.tsx';
import { FrontDoor } from '../bringIn/FrontDoor.tsx';
import { Compare } from '../compare/Compare.tsx';
import { Face } from '../face/Face.tsx';
import { Finding } from '../finding/Finding.tsx';
import { Fit } from '../fit/Fit.tsx';
import { Show } from '../show/Show.tsx';
import type { Room } from '../state/document.ts';
import { useAtDoor } from '../state/door.ts';
import { useStore } from '../state/store.ts';
import { roomWords } from './stepWords.ts';

/** The reading room's code is fetched when it is first entered. */
const Read = lazy(() => import('../read/ReadMargin.tsx'));

/** And that of two dates. */
const Change = lazy(() => import('../change/ChangeMargin.tsx'));

const ofRoom: Readonly<Record<Room, ComponentType>> = {
  door: FrontDoor,
  bringIn: BringIn,
  face: Face,
  fit: Fit,
  compare: Compare,
  finding: Finding,
  read: Read,
  show: Show,
  change: Change,
};

/** The words beside the plate: what the current step has to say and to ask. */
export function Margin() {
  const atDoor = useAtDoor();
  // The door is for whoever has nothing there yet.
  const room = useStore(({ step }) => (step === 'door' && !atDoor ? 'compare' : step));
  const Words = ofRoom[room];
  return (
    // Scrolls by itself, so it must be reachable with the keyboard; one for each room, which begins at its top.
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling region without other stops needs one
    <aside key={room} className="margin" aria-label={roomWords[room]} tabIndex={0}>
      <h2>{roomWords[room]}</h2>
      <Suspense fallback={null}>
        <Words />
      </Suspense>
    </aside>
  );
}
