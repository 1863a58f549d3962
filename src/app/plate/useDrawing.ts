import { useRef, useState } from 'react';
import type { Vec2 } from '../../core/geometry/index.ts';
import type { Line } from '../state/document.ts';
import { act, actOnView, documentNow, getState, setState } from '../state/store.ts';

/** What is being drawn right now, plate mm. */
export interface Stroke {
  readonly points: readonly Vec2[];
}

/** Drawing on the plate: a section line from where the hand goes down to where it lifts, or the outline of a region. */
export function useDrawing(): { stroke: Stroke | null; draw(phase: 'start' | 'move' | 'end', at: Vec2): void } {
  const [stroke, setStroke] = useState<Stroke | null>(null);
  const points = useRef<Vec2[]>([]);
  return {
    stroke,
    draw(phase, at) {
      const section = getState().hand === 'section';
      if (phase === 'start') points.current = [at];
      else if (section) points.current = [points.current[0] ?? at, at];
      else points.current = [...points.current, at];
      if (phase !== 'end') {
        setStroke({ points: points.current });
        return;
      }
      setStroke(null);
      if (section) finishSection(points.current);
      else finishRegion(points.current);
    },
  };
}

function finishSection(points: readonly Vec2[]): void {
  const [a, b] = [points[0], points.at(-1)];
  if (!a || !b || Math.hypot(a[0] - b[0], a[1] - b[1]) < 0.3) return;
  const section: Line = [a[0], a[1], b[0], b[1]];
  actOnView('Section drawn', { section });
  setState({ hand: 'look' });
}

function finishRegion(points: readonly Vec2[]): void {
  if (points.length < 6) return;
  const every = Math.max(1, Math.floor(points.length / 60));
  const outline = points.filter((_, i) => i % every === 0);
  const count = documentNow().ownMarks.length;
  const mark = { id: `own-${Date.now().toString(36)}`, label: `Region ${count + 1}`, outline };
  act('Region marked', (document) => ({ ...document, ownMarks: [...document.ownMarks, mark] }));
  setState({ hand: 'look', selectedMark: mark.id });
}
