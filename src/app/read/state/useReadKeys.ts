import { useEffect } from 'react';
import { turnedLamp } from '../../plate/ring.ts';
import type { ReadLamp } from '../../state/readDocument.ts';
import { useDocument } from '../../state/store.ts';
import { actOnRead } from './acts.ts';
import { useLook } from './current.ts';
import { lampOf } from './looks.ts';
import { readNow, restingFaceCamera, setRead } from './readStore.ts';

const lampKeys: Readonly<Record<string, readonly [number, number]>> = {
  a: [-15, 0],
  d: [15, 0],
  w: [0, 5],
  s: [0, -5],
};
/** Keys of the plate that lies behind the room: they would change what is not seen. */
const behind = new Set(['1', '2', '3', '4', 't', 'e', 'o', 'x', 'r', 'h']);
const moves = ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown'];

/** While the room is open, the keys of lamp and plate work on what the room shows. */
export function useReadKeys(): void {
  const moved = useDocument((document) => document.read.lamp);
  const lamp = lampOf(useLook('face'));
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const target = event.target as HTMLElement;
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (target.closest('input, textarea, select, dialog[open], .strip-desk, [role="slider"], .face-plate')) return;
      if (taken(event.key, lamp && (moved ?? lamp), target)) event.preventDefault();
    };
    addEventListener('keydown', onKey, true);
    return () => removeEventListener('keydown', onKey, true);
  }, [lamp, moved]);
}

function taken(key: string, lamp: ReadLamp | null, target: HTMLElement): boolean {
  const by = lampKeys[key.toLowerCase()];
  if (by && lamp) actOnRead('Lamp moved', { lamp: turnedLamp(lamp, by[0], by[1]) }, 'read lamp');
  else if (key === 'l') actOnRead('Lamp moved', { lamp: null });
  else if (key === '+' || key === '=') enlarge(1.2);
  else if (key === '-') enlarge(1 / 1.2);
  else if (key === '0') setRead({ camera: restingFaceCamera });
  else if (moves.includes(key)) return target.closest('.margin, .card-leaf') === null;
  else return by !== undefined || behind.has(key.toLowerCase());
  return true;
}

function enlarge(by: number): void {
  const { camera } = readNow();
  setRead({ camera: { ...camera, zoom: Math.min(40, Math.max(0.4, camera.zoom * by)) } });
}
