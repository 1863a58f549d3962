import { useMemo } from 'react';
import type { Mark } from '../../core/condition/index.ts';
import type { Vec2 } from '../../core/geometry/index.ts';
import { markWords } from '../../core/report/words/index.ts';
import { capital } from '../../core/scan/index.ts';
import { plateXFromReference } from './onPlate.ts';
import { usePair } from './select.ts';
import { useDocument } from './store.ts';

/** A mark as listed and outlined: found by the tool or drawn by the user. */
export interface ShownMark {
  readonly id: string;
  readonly number: number;
  readonly label: string;
  readonly own: boolean;
  readonly found?: Mark;
  /** What a saved file says of it. */
  readonly stated?: readonly string[];
  /** On the plate, in the impression's sense, mm. */
  readonly outline: readonly Vec2[];
}

export function useMarks(): readonly ShownMark[] {
  const { comparison, reference } = usePair();
  const notes = useDocument((document) => document.marks);
  const own = useDocument((document) => document.ownMarks);
  return useMemo(() => {
    const flip = plateXFromReference(reference);
    const found = (comparison?.judgement?.damage ?? []).map((mark, i) => ({
      id: mark.id,
      number: i + 1,
      label: notes[mark.id]?.label ?? capital(markWords[mark.shape]),
      own: false,
      found: mark,
      outline: pairs(mark.outline, flip),
    }));
    const stated = (comparison?.stated?.marks ?? []).map((mark, i) => ({
      id: mark.id,
      number: i + 1,
      label: notes[mark.id]?.label ?? shapeLabel(mark.label),
      own: false,
      stated: mark.words,
      outline: mark.outline.map(([x, y]): Vec2 => [flip * x, y]),
    }));
    const drawn = own.map((mark, i) => ({
      id: mark.id,
      number: found.length + stated.length + i + 1,
      label: mark.label,
      own: true,
      outline: mark.outline,
    }));
    return [...found, ...stated, ...drawn];
  }, [comparison, reference, notes, own]);
}

function pairs(flat: Float64Array, flip: 1 | -1): Vec2[] {
  const out: Vec2[] = [];
  for (let i = 0; i < flat.length; i += 2) out.push([flip * flat[i], flat[i + 1]]);
  return out;
}

/** A saved file's mark by its shape, or by the name that it has there. */
const shapeLabel = (label: string): string => capital(markWords[label as Mark['shape']] ?? label);
