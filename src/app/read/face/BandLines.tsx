import { type PointerEvent, useRef } from 'react';
import type { Vec2 } from '../../../core/geometry/index.ts';
import type { View } from '../../../core/read/index.ts';
import { number } from '../../look/numbers.ts';
import { settle } from '../../state/store.ts';
import type { RingNow } from '../state/current.ts';
import { usePlaces, useSeenDegrees } from '../state/current.ts';
import { moveEdge, moveStart } from '../state/edges.ts';
import { depthOf, parallelIn, pictureX, pointToward } from './frame.ts';

interface BandLinesProps {
  readonly scanId: string;
  readonly now: RingNow;
  readonly view: View;
  readonly toPx: (x: number, y: number) => Vec2;
  readonly toMm: (px: number, py: number) => Vec2;
}

/** Both edges of the legend band and where its strip begins; each is moved by hand or with the arrow keys. */
export function BandLines({ scanId, now, view, toPx, toMm }: BandLinesProps) {
  const svg = useRef<SVGGElement>(null);
  const places = usePlaces();
  const { seen } = useSeenDegrees();
  const { band, startDeg, facing, arcs } = now.order;
  const sign = pictureX(1, band.sense, view);
  const lineAt = (depthMm: number): Vec2[] => parallelIn(band, depthMm, view);
  const [outer, inner] = [lineAt(band.outerMm), lineAt(band.innerMm)];
  const middleX = sign * band.cx;
  const reading = (event: PointerEvent): Vec2 => {
    const box = svg.current?.ownerSVGElement?.getBoundingClientRect();
    const [x, y] = toMm(event.clientX - (box?.left ?? 0), event.clientY - (box?.top ?? 0));
    return [sign * x, y];
  };
  const depthAt = (event: PointerEvent): number => depthOf(band, ...reading(event));
  const degAt = (event: PointerEvent): number => {
    const [x, y] = reading(event);
    return (Math.atan2(x - band.cx, y - band.cy) * 180) / Math.PI;
  };
  const gripDeg = sign * 68;
  const start = pointToward(outer, middleX, band.cy, sign * startDeg);
  const [sx, sy] = toPx(...start);
  const [mx, my] = toPx(middleX, band.cy);
  const out = (Math.atan2(sy - my, sx - mx) * 180) / Math.PI;
  return (
    <g className="band-lines" ref={svg}>
      <path className="band-edge" d={pathOf(outer, toPx)} />
      <path className="band-edge" d={pathOf(inner, toPx)} />
      <Grip
        label="Outer edge of the legend"
        at={toPx(...pointToward(outer, middleX, band.cy, gripDeg))}
        value={band.outerMm}
        words={`${number(band.outerMm, 2)} millimetres inside the outline`}
        onDrag={(event) => moveEdge(scanId, now, 'outerMm', depthAt(event))}
        onStep={(by) => moveEdge(scanId, now, 'outerMm', band.outerMm - by * 0.1)}
      />
      <Grip
        label="Inner edge of the legend"
        at={toPx(...pointToward(inner, middleX, band.cy, gripDeg))}
        value={band.innerMm}
        words={`${number(band.innerMm, 2)} millimetres inside the outline`}
        onDrag={(event) => moveEdge(scanId, now, 'innerMm', depthAt(event))}
        onStep={(by) => moveEdge(scanId, now, 'innerMm', band.innerMm - by * 0.1)}
      />
      <Grip
        label="Where the strip begins"
        at={[sx, sy]}
        start={out}
        value={seen(startDeg)}
        words={`${number(seen(startDeg), 1)} degrees clockwise from 12 o’clock, ${arcs ? 'then arc by arc' : facing === 'inward' ? 'then clockwise' : 'then against the clock'}`}
        onDrag={(event) => moveStart(scanId, now, places, degAt(event))}
        onStep={(by) => moveStart(scanId, now, places, startDeg + by)}
      />
    </g>
  );
}

interface GripProps {
  readonly label: string;
  readonly at: Vec2;
  readonly value: number;
  readonly words: string;
  /** Degrees on the screen in which the mark of the start points outward. */
  readonly start?: number;
  onDrag(event: PointerEvent): void;
  onStep(by: number): void;
}

function Grip({ label, at, value, words, start, onDrag, onStep }: GripProps) {
  return (
    <g
      className="band-grip"
      transform={`translate(${at[0].toFixed(1)} ${at[1].toFixed(1)})`}
      role="slider"
      tabIndex={0}
      aria-label={label}
      aria-valuemin={0}
      aria-valuemax={360}
      aria-valuenow={value}
      aria-valuetext={words}
      onPointerDown={(event) => {
        event.stopPropagation();
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={(event) => {
        if (event.buttons !== 1) return;
        event.stopPropagation();
        onDrag(event);
      }}
      onPointerUp={settle}
      onKeyDown={(event) => {
        const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
        if (by === undefined) return;
        event.preventDefault();
        event.stopPropagation();
        onStep(by * (event.shiftKey ? 5 : 1));
      }}
    >
      <title>{label}</title>
      <circle className="grip-reach" r={13} />
      {start === undefined ? (
        <circle className="grip-mark" r={4.5} />
      ) : (
        <path className="grip-mark" d="M2 0L14 -6V6Z" transform={`rotate(${start})`} />
      )}
    </g>
  );
}

const pathOf = (points: readonly Vec2[], toPx: (x: number, y: number) => Vec2): string =>
  points.length === 0
    ? ''
    : `M${points
        .filter((_, i) => i % 2 === 0)
        .map((point) => toPx(...point).map((px) => px.toFixed(1)))
        .map(([x, y]) => `${x} ${y}`)
        .join('L')}Z`;
