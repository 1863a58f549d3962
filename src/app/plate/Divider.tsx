import type { PointerEvent } from 'react';
import { actOnView, settle, useDocument } from '../state/store.ts';

const move = (divider: number): void =>
  actOnView('Divider moved', { divider: Math.min(0.98, Math.max(0.02, divider)) }, 'divider');

/** The edge between the two seals when one lies over the other. */
export function Divider({ width, height }: { width: number; height: number }) {
  const divider = useDocument((document) => document.view.divider);
  const x = Math.round(divider * width);
  const drag = (event: PointerEvent<SVGGElement>): void => {
    if (event.buttons !== 1) return;
    const box = event.currentTarget.ownerSVGElement?.getBoundingClientRect();
    if (box) move((event.clientX - box.left) / width);
  };
  return (
    <g
      className="divider"
      role="slider"
      tabIndex={0}
      aria-label="Divider between the two seals"
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={Math.round(divider * 100)}
      transform={`translate(${x} 0)`}
      onPointerDown={(event) => {
        event.stopPropagation();
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={drag}
      onPointerUp={settle}
      onKeyDown={(event) => {
        const by = { ArrowLeft: -0.02, ArrowRight: 0.02 }[event.key];
        if (by === undefined) return;
        event.preventDefault();
        event.stopPropagation();
        move(divider + by);
      }}
    >
      <rect className="divider-reach" x={-12} width={24} height={height} />
      <line y2={height} />
      <text x={-10} y={18} textAnchor="end">
        a
      </text>
      <text x={10} y={18}>
        b
      </text>
      <path
        className="divider-grip"
        d={`M-4 ${height / 2 - 9}V${height / 2 + 9}M4 ${height / 2 - 9}V${height / 2 + 9}`}
      />
    </g>
  );
}
