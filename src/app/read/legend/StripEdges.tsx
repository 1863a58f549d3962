import { type PointerEvent, useRef } from 'react';
import type { StripPlaces } from '../../../workers/browser/readingProtocol.ts';
import { number } from '../../look/numbers.ts';
import { settle } from '../../state/store.ts';
import type { RingNow } from '../state/current.ts';
import { moveEdge } from '../state/edges.ts';

interface StripEdgesProps {
  readonly scanId: string;
  readonly now: RingNow;
  readonly places: StripPlaces;
  readonly pxPerMm: number;
  readonly widthPx: number;
}

/** Both edges of the band on the strip itself, to be moved up and down. */
export function StripEdges({ scanId, now, places, pxPerMm, widthPx }: StripEdgesProps) {
  const { band, grid, facing, pieces } = places;
  // Letters that face two ways have the outer edge now above, now below: it is moved on the face.
  if (pieces.some((piece) => piece.facing !== facing)) return null;
  const middle = (band.lettersOuterMm + band.lettersInnerMm) / 2;
  const way = facing === 'inward' ? 1 : -1;
  const yOf = (depthMm: number): number => (grid.top - way * (middle - depthMm)) * pxPerMm;
  const depthAt = (y: number): number => middle - way * (grid.top - y / pxPerMm);
  return (
    <>
      {(['outerMm', 'innerMm'] as const).map((which) => (
        <StripEdge
          key={which}
          label={which === 'outerMm' ? 'Outer edge on the strip' : 'Inner edge on the strip'}
          y={yOf(now.order.band[which])}
          widthPx={widthPx}
          value={now.order.band[which]}
          onMove={(y) => moveEdge(scanId, now, which, depthAt(y))}
          onStep={(up) => moveEdge(scanId, now, which, now.order.band[which] - way * up * 0.1)}
        />
      ))}
    </>
  );
}

interface StripEdgeProps {
  readonly label: string;
  readonly y: number;
  readonly widthPx: number;
  readonly value: number;
  onMove(y: number): void;
  onStep(up: number): void;
}

function StripEdge({ label, y, widthPx, value, onMove, onStep }: StripEdgeProps) {
  const group = useRef<SVGGElement>(null);
  const drag = (event: PointerEvent): void => {
    if (event.buttons !== 1) return;
    event.stopPropagation();
    const box = group.current?.ownerSVGElement?.getBoundingClientRect();
    if (box) onMove(event.clientY - box.top);
  };
  return (
    <g
      ref={group}
      className="strip-edge"
      role="slider"
      tabIndex={0}
      aria-label={label}
      aria-orientation="vertical"
      aria-valuemin={0}
      aria-valuemax={60}
      aria-valuenow={value}
      aria-valuetext={`${number(value, 2)} millimetres inside the outline`}
      transform={`translate(0 ${y.toFixed(1)})`}
      onPointerDown={(event) => {
        event.stopPropagation();
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={drag}
      onPointerUp={settle}
      onKeyDown={(event) => {
        const up = { ArrowUp: 1, ArrowDown: -1 }[event.key];
        if (up === undefined) return;
        event.preventDefault();
        event.stopPropagation();
        onStep(up * (event.shiftKey ? 5 : 1));
      }}
    >
      <title>{label}</title>
      <line className="edge-reach" x2={widthPx} />
      <line className="edge-line" x2={widthPx} />
      <circle className="grip-mark" cx={widthPx - 9} r={4.5} />
    </g>
  );
}
