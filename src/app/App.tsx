import { lazy, Suspense, useEffect } from 'react';
import { DropTarget } from './bringIn/DropTarget.tsx';
import { Caption } from './frame/Caption.tsx';
import { Margin } from './frame/Margin.tsx';
import { Notice } from './frame/Notice.tsx';
import { RunningHead } from './frame/RunningHead.tsx';
import { Working } from './frame/Working.tsx';
import { KeySheet } from './keys/KeySheet.tsx';
import { useKeys } from './keys/useKeys.ts';
import { useDark } from './look/useTones.ts';
import { Plate } from './plate/Plate.tsx';
import { Presenting } from './show/Presenting.tsx';
import { useAtDoor } from './state/door.ts';
import { useStore } from './state/store.ts';
import './frame/frame.css';

const ReadRoom = lazy(() => import('./read/ReadRoom.tsx'));
const ChangeRoom = lazy(() => import('./change/ChangeRoom.tsx'));

/** The page: a running head, the plate with its caption, and the margin with the words of the step. */
export function App() {
  useKeys();
  const dark = useDark();
  const atDoor = useAtDoor();
  const margin = useStore((state) => state.margin) || atDoor;
  const presenting = useStore((state) => state.presenting !== null);
  const reading = useStore((state) => state.step === 'read' && state.presenting === null);
  const dated = useStore((state) => state.step === 'change');
  useEffect(() => {
    document.documentElement.dataset.ground = dark ? 'ink' : 'paper';
  }, [dark]);
  return (
    <DropTarget>
      <div
        className={`page${margin ? '' : ' no-margin'}${presenting ? ' on-show' : ''}${reading ? ' on-read' : ''}${atDoor ? ' at-door' : ''}`}
      >
        <RunningHead />
        <main className="spread">
          {!dated && <Plate />}
          <Presenting />
          <Working />
          {!dated && <Caption />}
          {dated && (
            <Suspense fallback={null}>
              <ChangeRoom />
            </Suspense>
          )}
          {reading && (
            <Suspense fallback={null}>
              <ReadRoom />
            </Suspense>
          )}
        </main>
        {margin && <Margin />}
        <Notice />
        <KeySheet />
      </div>
    </DropTarget>
  );
}
