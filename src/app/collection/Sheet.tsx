import { lazy, type ReactNode, Suspense, useCallback, useMemo, useRef, useState } from 'react';
import { useTones } from '../look/useTones.ts';
import { Ground } from '../plate/Ground.tsx';
import { LampRing } from '../plate/LampRing.tsx';
import { toPixels } from '../plate/project.ts';
import { ScaleBar } from '../plate/ScaleBar.tsx';
import { useSize } from '../plate/useSize.ts';
import { hasWebGl } from '../plate/webgl.ts';
import type { Picture } from '../scene/Painter.tsx';
import { useView } from '../state/ground.ts';
import { type Lying, laidOut } from './sheetLayout.ts';

const Scene = lazy(() => import('../scene/Scene.tsx'));

interface Props {
  readonly label: string;
  readonly lying: readonly Lying[];
  /** What stands below a face. */
  caption(scan: number): ReactNode;
  /** Places to be marked on a face, x and y pairs in its own frame in the impression's sense, mm. */
  places?(scan: number): readonly number[];
}

const nothing = (): void => undefined;

/** Several faces on one sheet: all at one scale, upright, under one lamp. */
export function Sheet({ label, lying, caption, places }: Props) {
  const element = useRef<HTMLDivElement>(null);
  const size = useSize(element);
  const tones = useTones();
  const { lamp } = useView();
  const [software, setSoftware] = useState(true);
  const [lost, setLost] = useState(false);
  const pictures = useMemo(() => laidOut(lying, size), [lying, size]);
  const onLost = useCallback((now: boolean) => setLost(now), []);
  return (
    <section ref={element} className="plate sheet" aria-label={label}>
      <Ground pictures={pictures} size={size} />
      {hasWebGl() && size.width > 0 && pictures.length > 0 && (
        <Suspense fallback={null}>
          <Scene
            pictures={lost ? [] : pictures}
            {...{ lamp, tones, onLost }}
            rangeMm={1}
            difference={null}
            shadows={!software}
            onReady={setSoftware}
            onCapture={nothing}
          />
        </Suspense>
      )}
      <svg className="overlay" width={size.width} height={size.height} aria-label="Lamp and scale">
        {places && pictures.map((picture) => <Places key={picture.pane.id} {...{ picture, places }} />)}
        {pictures[0] && <LampRing picture={pictures[0]} leading />}
        {pictures[0] && <ScaleBar picture={pictures[0]} x={12} y={size.height - 6} />}
      </svg>
      {pictures.map(({ pane }) => (
        <div
          key={pane.id}
          className="sheet-caption"
          style={{ left: pane.x, top: pane.y + pane.height, width: pane.width }}
        >
          {caption(Number(pane.id))}
        </div>
      ))}
    </section>
  );
}

function Places({ picture, places }: { picture: Picture; places(scan: number): readonly number[] }) {
  const at = places(Number(picture.pane.id));
  const points = Array.from({ length: at.length / 2 }, (_, k) =>
    toPixels(picture.projection, at[2 * k], at[2 * k + 1]),
  );
  return (
    <g className="agreeing">
      {points.map(([x, y], k) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the places have no other name
        <g key={k}>
          <circle className="beneath" cx={x} cy={y} r={3.5} />
          <circle cx={x} cy={y} r={3.5} />
        </g>
      ))}
    </g>
  );
}
