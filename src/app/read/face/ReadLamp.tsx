import { type KeyboardEvent, type PointerEvent, useRef } from 'react';
import { beyondRim, lampAt, lampPlace, ringOf, ringPath, turnedLamp } from '../../plate/ring.ts';
import type { Picture } from '../../scene/Painter.tsx';
import { settle } from '../../state/store.ts';
import { actOnRead } from '../state/acts.ts';
import type { ReadLamp as Lamp } from '../state/readDocument.ts';

const setLamp = (lamp: Lamp): void => actOnRead('Lamp moved', { lamp }, 'read lamp');

/** The lamp of the look: a small sun on a ring round the seal; nearer to the rim is higher above the face. */
export function ReadLamp({ picture, lamp }: { picture: Picture; lamp: Lamp }) {
  const group = useRef<SVGGElement>(null);
  const ring = ringOf(picture);
  const [x, y] = lampPlace(ring, lamp);
  const drag = (event: PointerEvent): void => {
    if (event.buttons !== 1) return;
    event.stopPropagation();
    const box = group.current?.ownerSVGElement?.getBoundingClientRect();
    if (box) setLamp(lampAt(ring, event.clientX - box.left, event.clientY - box.top));
  };
  return (
    <g className="lamp" ref={group}>
      <path className="lamp-ring" d={ringPath(ring, beyondRim(lamp.heightDeg))} />
      <g
        className="lamp-sun"
        transform={`translate(${x} ${y})`}
        role="slider"
        tabIndex={0}
        aria-label="Lamp of the look: left and right arrows move it round the seal, up and down change its height"
        aria-valuemin={0}
        aria-valuemax={359}
        aria-valuenow={lamp.azimuthDeg}
        aria-valuetext={`from ${lamp.azimuthDeg} degrees, ${lamp.heightDeg} degrees above the face`}
        onPointerDown={(event) => {
          event.stopPropagation();
          event.currentTarget.setPointerCapture(event.pointerId);
        }}
        onPointerMove={drag}
        onPointerUp={settle}
        onKeyDown={(event) => onLampKey(event, lamp)}
      >
        <circle className="lamp-reach" r={20} />
        <circle className="lamp-disc" r={6} />
        {[0, 45, 90, 135, 180, 225, 270, 315].map((deg) => (
          <line key={deg} className="lamp-ray" y1={-9} y2={-13} transform={`rotate(${deg})`} />
        ))}
        <text className="lamp-words" y={-20} textAnchor="middle">
          {Math.round(lamp.azimuthDeg)}°, {Math.round(lamp.heightDeg)}° above
        </text>
      </g>
    </g>
  );
}

function onLampKey(event: KeyboardEvent, lamp: Lamp): void {
  const round = event.shiftKey ? 15 : 5;
  const by: Record<string, [number, number]> = {
    ArrowLeft: [-round, 0],
    ArrowRight: [round, 0],
    ArrowUp: [0, event.shiftKey ? 10 : 2],
    ArrowDown: [0, event.shiftKey ? -10 : -2],
  };
  const step = by[event.key];
  if (!step) return;
  event.preventDefault();
  event.stopPropagation();
  setLamp(turnedLamp(lamp, step[0], step[1]));
}
