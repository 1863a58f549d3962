import { type PointerEvent, useRef, useState } from 'react';
import type { Picture } from '../scene/Painter.tsx';
import { restateFace } from '../state/scans.ts';
import { usePair } from '../state/select.ts';
import { settle, useDocument } from '../state/store.ts';
import { turnedOnFace } from '../state/upright.ts';
import { rimAt, ringOf, ringPath } from './ring.ts';

/** A dial round the face: the mark at the top is dragged to where the top of the design is. */
export function UprightDial({ picture }: { picture: Picture }) {
  const group = useRef<SVGGElement>(null);
  const scan = useDocument((document) => document.scans.find((entry) => picture.face.key.startsWith(entry.id)));
  const [dragDeg, setDragDeg] = useState<number | null>(null);
  const ring = ringOf(picture);
  const pair = usePair();
  const upDeg = turnedOnFace(picture.face, pair, scan?.stated.upDeg);
  const sign = picture.face.sense === 'intaglio' && !picture.mirror ? -1 : 1;
  const degAt = (event: PointerEvent): number => {
    const box = group.current?.ownerSVGElement?.getBoundingClientRect();
    if (!box) return 0;
    const [dx, dy] = [event.clientX - box.left - ring.centre[0], ring.centre[1] - event.clientY + box.top];
    return (Math.atan2(dx, dy) * 180) / Math.PI;
  };
  const turn = (to: number): void => {
    if (scan) restateFace(scan.id, { upDeg: ((Math.round(to * 2) / 2 + 540) % 360) - 180 });
  };
  const at = dragDeg ?? 0;
  const reach = rimAt(ring, at) + 26;
  const [markX, markY] = [Math.sin((at * Math.PI) / 180) * reach, -Math.cos((at * Math.PI) / 180) * reach];
  return (
    <g className="dial" ref={group}>
      <path className="lamp-ring" d={ringPath(ring, 26)} />
      {[0, 30, 60, 90, 120, 150, 180, 210, 240, 270, 300, 330].map((deg) => {
        const a = (deg * Math.PI) / 180;
        const r = rimAt(ring, deg) + 26;
        return <circle key={deg} cx={ring.centre[0] + r * Math.sin(a)} cy={ring.centre[1] - r * Math.cos(a)} r={1.6} />;
      })}
      <g
        className="dial-top"
        transform={`translate(${ring.centre[0] + markX} ${ring.centre[1] + markY}) rotate(${at})`}
        role="slider"
        tabIndex={0}
        aria-label="Top of the design: arrows turn the face"
        aria-valuemin={-180}
        aria-valuemax={180}
        aria-valuenow={upDeg}
        aria-valuetext={`turned ${upDeg} degrees from where it was found`}
        onPointerDown={(event) => {
          event.stopPropagation();
          event.currentTarget.setPointerCapture(event.pointerId);
          setDragDeg(0);
        }}
        onPointerMove={(event) => {
          if (dragDeg !== null) setDragDeg(degAt(event));
        }}
        onPointerUp={(event) => {
          // The face is prepared again, so the turn is made once, when the hand lets go.
          if (dragDeg !== null && Math.abs(degAt(event)) > 0.5) turn(upDeg - sign * degAt(event));
          setDragDeg(null);
          settle();
        }}
        onKeyDown={(event) => {
          const by = { ArrowLeft: 1, ArrowRight: -1 }[event.key];
          if (by === undefined) return;
          event.preventDefault();
          event.stopPropagation();
          turn(upDeg + sign * by * (event.shiftKey ? 10 : 1));
        }}
      >
        <circle className="lamp-reach" r={20} />
        <path className="dial-mark" d="M0 -9L7 5H-7Z" />
        <text x={13} y={3}>
          top
        </text>
      </g>
    </g>
  );
}
