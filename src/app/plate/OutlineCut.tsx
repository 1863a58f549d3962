import type { PointerEvent } from 'react';
import type { Picture } from '../scene/Painter.tsx';
import { actOnView, settle, useDocument } from '../state/store.ts';
import { edgeAt } from './imageEdge.ts';
import { toPixels } from './project.ts';

const move = (share: number): void =>
  actOnView('Edge between a and b moved', { divider: Math.min(0.99, Math.max(0.04, share)) }, 'divider');

/** The seal's own outline, made smaller: a lies within it, b around it. A way in pixels. */
export function cutWay(picture: Picture, share: number): string {
  const points = Array.from({ length: 144 }, (_, i) => at(picture, (i / 144) * 2 * Math.PI, share));
  return `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}Z`;
}

function at({ projection, edge, mirror }: Picture, angle: number, share: number) {
  const r = share * edgeAt(edge, angle);
  const x = r * Math.sin(angle);
  return toPixels(projection, mirror ? -x : x, r * Math.cos(angle));
}

/** Where one seal lies over the other: the edge between them follows the outline of the seal and is drawn inward and outward. */
export function OutlineCut({ picture }: { picture: Picture }) {
  const share = useDocument((document) => document.view.divider);
  const foot = at(picture, Math.PI, share);
  const drag = (event: PointerEvent<SVGGElement>): void => {
    if (event.buttons !== 1) return;
    const box = event.currentTarget.ownerSVGElement?.getBoundingClientRect();
    if (!box) return;
    const [px, py] = [event.clientX - box.left, event.clientY - box.top];
    const [mx, my] = toPixels(picture.projection, 0, 0);
    const turned = Math.atan2(px - mx, my - py) - (picture.projection.turnDeg * Math.PI) / 180;
    const edge = edgeAt(picture.edge, picture.mirror ? -turned : turned) * picture.projection.pxPerMm;
    move(Math.hypot(px - mx, py - my) / Math.max(1, edge));
  };
  const way = cutWay(picture, share);
  return (
    <g
      className="outline-cut"
      role="slider"
      tabIndex={0}
      aria-label="Edge between the two seals, an outline of the seal: a within, b around; arrows make it larger or smaller"
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={Math.round(share * 100)}
      onPointerDown={(event) => {
        event.stopPropagation();
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={drag}
      onPointerUp={settle}
      onKeyDown={(event) => {
        const by = { ArrowLeft: -0.03, ArrowDown: -0.03, ArrowRight: 0.03, ArrowUp: 0.03 }[event.key];
        if (by === undefined) return;
        event.preventDefault();
        event.stopPropagation();
        move(share + by);
      }}
    >
      <path className="cut-reach" d={way} />
      <path className="cut-line" d={way} />
      <text x={foot[0]} y={foot[1] - 9} textAnchor="middle">
        a within
      </text>
      <text x={foot[0]} y={foot[1] + 19} textAnchor="middle">
        b around
      </text>
    </g>
  );
}
