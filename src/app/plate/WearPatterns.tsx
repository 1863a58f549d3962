import type { ReactNode } from 'react';
import type { WearState } from '../../core/condition/index.ts';

/** Each state has its own hatching, so that none is told by a colour: a path, and the size of its tile in pixels. */
const tiles: Readonly<Partial<Record<WearState, readonly [path: string, side: number, turnDeg?: number]>>> = {
  lower: ['M0 4H8', 8, -30],
  clogged: ['M3.5 0V7', 7],
  lost: ['M0 4.5H9M4.5 0V9', 9, 45],
  added: ['M2.5 5H7.5M5 2.5V7.5', 10],
  blurred: ['M0 4H4', 8, 30],
  cannotJudge: ['M3.2 4.5H5.8', 9],
};

export const hatchOf = (state: WearState): string => `url(#wear-${state})`;

/** The hatchings as patterns, to be put into the definitions of the drawing. */
export function WearPatterns(): ReactNode {
  return Object.entries(tiles).map(([state, [path, side, turnDeg = 0]]) => (
    <pattern
      key={state}
      id={`wear-${state}`}
      className="wear-hatch"
      width={side}
      height={side}
      patternUnits="userSpaceOnUse"
      patternTransform={`rotate(${turnDeg})`}
    >
      <path className="halo" d={path} />
      <path d={path} />
    </pattern>
  ));
}
