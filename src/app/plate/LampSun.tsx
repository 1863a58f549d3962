import { type KeyboardEvent, type PointerEvent, useRef } from 'react';
import type { Picture } from '../scene/Painter.tsx';
import type { Lamp } from '../state/document.ts';
import { settle } from '../state/store.ts';
import { beyondRim, handPlace, lampAt, lampPlace, ringOf, ringPath, turnedLamp } from './ring.ts';

interface Props {
  readonly picture: Picture;
  readonly lamp: Lamp;
  readonly label: string;
  readonly tabIndex: 0 | -1;
  /** Carried by the hand over the seal instead of standing on its ring. */
  readonly inHand?: boolean;
  /** Called while the lamp is dragged or stepped. */
  readonly onLamp: (lamp: Lamp, event: PointerEvent | KeyboardEvent) => void;
}

/** A lamp: a small sun on a ring that follows the seal's rim. Nearer to the rim is higher above the face. */
export function LampSun({ picture, lamp, label, tabIndex, inHand = false, onLamp }: Props) {
  const group = useRef<SVGGElement>(null);
  const ring = ringOf(picture);
  const [x, y] = inHand ? handPlace(ring, lamp) : lampPlace(ring, lamp);
  const drag = (event: PointerEvent): void => {
    if (event.buttons !== 1) return;
    const box = group.current?.ownerSVGElement?.getBoundingClientRect();
    if (box) onLamp(lampAt(ring, event.clientX - box.left, event.clientY - box.top), event);
  };
  const words = `${Math.round(lamp.azimuthDeg)}°, ${Math.round(lamp.heightDeg)}° above`;
  return (
    <g className={inHand ? 'lamp in-hand' : 'lamp'} ref={group}>
      {!inHand && <path className="lamp-ring" d={ringPath(ring, beyondRim(lamp.heightDeg))} />}
      <g
        className="lamp-sun"
        transform={`translate(${x} ${y})`}
        role="slider"
        tabIndex={tabIndex}
        aria-label={`${label}: left and right arrows move it round the seal, up and down change its height`}
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
        onKeyDown={(event) => onLampKey(event, lamp, onLamp)}
      >
        <circle className="lamp-reach" r={20} />
        <circle className="lamp-disc" r={6} />
        {[0, 45, 90, 135, 180, 225, 270, 315].map((deg) => (
          <line key={deg} className="lamp-ray" y1={-9} y2={-13} transform={`rotate(${deg})`} />
        ))}
        <text className="lamp-words" y={-20} textAnchor="middle">
          {words}
        </text>
      </g>
    </g>
  );
}

function onLampKey(event: KeyboardEvent, lamp: Lamp, onLamp: Props['onLamp']): void {
  const big = event.shiftKey ? 15 : 5;
  const by: Record<string, [number, number]> = {
    ArrowLeft: [-big, 0],
    ArrowRight: [big, 0],
    ArrowUp: [0, event.shiftKey ? 10 : 2],
    ArrowDown: [0, event.shiftKey ? -10 : -2],
  };
  const step = by[event.key];
  if (!step) return;
  event.preventDefault();
  event.stopPropagation();
  onLamp(turnedLamp(lamp, step[0], step[1]), event);
}
