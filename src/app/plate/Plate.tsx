import { lazy, Suspense, useCallback, useMemo, useRef, useState } from 'react';
import { useTones } from '../look/useTones.ts';
import { setCapture } from '../show/capture.ts';
import { useView } from '../state/ground.ts';
import { plateXFromReference } from '../state/onPlate.ts';
import { useRangeMm } from '../state/select.ts';
import { notify, useStore } from '../state/store.ts';
import { Ground } from './Ground.tsx';
import { NoGraphics } from './NoGraphics.tsx';
import { Overlay } from './Overlay.tsx';
import { useDrawing } from './useDrawing.ts';
import { useHand } from './useHand.ts';
import { usePlate } from './usePlate.ts';
import { useShadows } from './useShadows.ts';
import { useSize } from './useSize.ts';
import { hasWebGl } from './webgl.ts';
import './plate.css';

const Scene = lazy(() => import('../scene/Scene.tsx'));

/** The seals themselves, large on the paper, with what is drawn over them. */
export function Plate() {
  const element = useRef<HTMLDivElement>(null);
  const measured = useSize(element);
  const size = useMemo(() => measured, [measured]);
  const plate = usePlate(size);
  const lamp = useView().lamp;
  const hand = useStore((state) => state.hand);
  const rangeMm = useRangeMm();
  const tones = useTones();
  const [software, setSoftware] = useState(true);
  const [lost, setLost] = useState(false);
  const shadows = useShadows(software);
  const { stroke, draw } = useDrawing();
  const events = useHand(element, plate.pictures, draw, plateXFromReference(plate.reference));
  const onLost = useCallback((now: boolean) => {
    setLost(now);
    notify(
      now ? 'The graphics card was lost; the seals come back when the browser has it again. Nothing is lost.' : null,
    );
  }, []);
  if (!hasWebGl()) return <NoGraphics pictures={plate.pictures} element={element} />;
  return (
    <div
      ref={element}
      className={`plate hand-${hand}`}
      role="application"
      aria-label={labelOf(plate.pictures.length)}
      aria-roledescription="plate"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: the plate takes the keyboard, arrows move it, plus and minus enlarge
      tabIndex={0}
      {...events}
    >
      <Ground pictures={plate.pictures} size={size} />
      {size.width > 0 && (
        <Suspense fallback={null}>
          <Scene
            pictures={lost ? [] : plate.pictures}
            lamp={lamp}
            rangeMm={rangeMm}
            difference={plate.comparison?.difference ?? null}
            tones={tones}
            shadows={shadows}
            onLost={onLost}
            onReady={setSoftware}
            onCapture={setCapture}
          />
        </Suspense>
      )}
      <Overlay plate={plate} size={size} stroke={stroke} />
    </div>
  );
}

const labelOf = (pictures: number): string =>
  pictures === 0
    ? 'The plate is empty: bring scans in.'
    : `Plate with ${pictures === 1 ? 'one seal' : 'two seals'}. Arrow keys move it, plus and minus enlarge, 0 lays it straight.`;
