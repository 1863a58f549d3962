import type { KeyboardEvent } from 'react';
import { apply, type Vec2 } from '../../core/geometry/index.ts';
import type { Picture } from '../scene/Painter.tsx';
import { movePlace, removePair } from '../state/byHand.ts';
import type { MarkedPair } from '../state/document.ts';
import { settle, useDocument } from '../state/store.ts';
import { toPixels } from './project.ts';

/** The places marked by hand on one pane, numbered; arrows move the one that has the focus, delete takes its pair away. */
export function PlaceMarks({ picture }: { picture: Picture }) {
  const pairs = useDocument((document) => document.pairs);
  return (
    <g className="places">
      {pairs.map((pair, i) => (
        <PlaceMark key={pair.id} pair={pair} number={i + 1} picture={picture} />
      ))}
    </g>
  );
}

function PlaceMark({ pair, number, picture }: { pair: MarkedPair; number: number; picture: Picture }) {
  const side = picture.pane.role;
  const at = pair[side];
  if (!at) return null;
  const [x, y] = apply(picture.plateFromFace, [at[0], at[1], 0]);
  const [px, py] = toPixels(picture.projection, x, y);
  const onKey = (event: KeyboardEvent): void => {
    if (event.key === 'Delete' || event.key === 'Backspace') removePair(pair.id);
    else {
      const step = stepOf(event, picture);
      if (!step) return;
      movePlace(pair.id, side, [at[0] + step[0], at[1] + step[1]]);
    }
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button cannot stand inside a drawing
    <g
      className="place"
      transform={`translate(${px.toFixed(1)} ${py.toFixed(1)})`}
      role="button"
      tabIndex={0}
      aria-label={`Place ${number} on ${side === 'reference' ? 'a' : 'b'}: arrows move it, delete takes the pair away`}
      onKeyDown={onKey}
      onBlur={settle}
    >
      <circle className="place-reach" r={13} />
      <path className="halo" d="M-9 0H-2.5M2.5 0H9M0 -9V-2.5M0 2.5V9" />
      <path d="M-9 0H-2.5M2.5 0H9M0 -9V-2.5M0 2.5V9" />
      <text x={8} y={-7}>
        {number}
      </text>
    </g>
  );
}

/** A step of the arrows as seen on the plate, in the face's own frame, mm. */
function stepOf(event: KeyboardEvent, { plateFromFace }: Picture): Vec2 | null {
  const mm = event.shiftKey ? 1 : 0.2;
  const seen = { ArrowLeft: [-mm, 0], ArrowRight: [mm, 0], ArrowUp: [0, mm], ArrowDown: [0, -mm] }[event.key];
  if (!seen) return null;
  const r = plateFromFace.rotation;
  // The rotation's inverse is its transpose.
  return [r[0] * seen[0] + r[3] * seen[1], r[1] * seen[0] + r[4] * seen[1]];
}
