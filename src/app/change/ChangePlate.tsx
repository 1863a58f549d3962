import { lazy, Suspense, useCallback, useRef, useState } from 'react';
import { useTones } from '../look/useTones.ts';
import { Ground } from '../plate/Ground.tsx';
import { NoGraphics } from '../plate/NoGraphics.tsx';
import { useHand } from '../plate/useHand.ts';
import { useShadows } from '../plate/useShadows.ts';
import { useSize } from '../plate/useSize.ts';
import { hasWebGl } from '../plate/webgl.ts';
import { useView } from '../state/ground.ts';
import { notify } from '../state/store.ts';
import { ChangeOverlay } from './ChangeOverlay.tsx';
import { DateTurn } from './DateTurn.tsx';
import { useChangeView } from './state/useChangeWork.ts';
import { usePictures } from './usePictures.ts';
import '../plate/plate.css';

const Scene = lazy(() => import('../scene/Scene.tsx'));
const noCapture = (): void => undefined;
const noDraw = (): void => undefined;

/** The one object on its two dates, large, under one lamp. */
export function ChangePlate() {
  const element = useRef<HTMLDivElement>(null);
  const size = useSize(element);
  const { held, seen } = usePictures(size);
  const { lamp } = useView();
  const map = useChangeView()?.map ?? null;
  const tones = useTones();
  const [software, setSoftware] = useState(true);
  const [lost, setLost] = useState(false);
  const shadows = useShadows(software);
  const events = useHand(element, seen, noDraw, 1);
  const onLost = useCallback((now: boolean) => {
    setLost(now);
    notify(now ? 'The graphics card was lost; the dates come back when the browser has it again.' : null);
  }, []);
  if (!hasWebGl()) return <NoGraphics pictures={held} element={element} />;
  return (
    <div
      ref={element}
      className="plate hand-look"
      role="application"
      aria-label="Plate with one object on two dates. T turns from one to the other, arrow keys move it, plus and minus enlarge."
      aria-roledescription="plate"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: the plate takes the keyboard, arrows move it, plus and minus enlarge
      tabIndex={0}
      {...events}
    >
      <Ground pictures={seen} size={size} />
      {size.width > 0 && (
        <Suspense fallback={null}>
          <Scene
            pictures={lost ? [] : held}
            lamp={lamp}
            rangeMm={map?.endMm ?? 0.1}
            difference={map}
            tones={tones}
            shadows={shadows}
            onLost={onLost}
            onReady={setSoftware}
            onCapture={noCapture}
          />
        </Suspense>
      )}
      <ChangeOverlay pictures={seen} size={size} />
      <DateTurn />
    </div>
  );
}
