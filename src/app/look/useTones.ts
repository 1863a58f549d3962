import { useSyncExternalStore } from 'react';
import type { Tones } from '../scene/Painter.tsx';
import { useAtDoor } from '../state/door.ts';
import { useStore } from '../state/store.ts';

const dark = matchMedia('(prefers-color-scheme: dark)');
const listen = (changed: () => void): (() => void) => {
  dark.addEventListener('change', changed);
  return () => dark.removeEventListener('change', changed);
};

/** Whether the ground is ink: as chosen, or as the system says; at the front door it is always dark. */
export function useDark(): boolean {
  const atDoor = useAtDoor();
  const system = useSyncExternalStore(listen, () => dark.matches);
  const scheme = useStore((state) => state.scheme);
  return atDoor || (scheme === 'system' ? system : scheme === 'dark');
}

const onPaper: Tones = { dark: '#2a241d', light: '#fbf4e6', ink: '#241f19' };
const onInk: Tones = { dark: '#0d0b09', light: '#f3ead8', ink: '#f0e6d2' };

/** The two ends of the tone in which the seals are printed. */
export const useTones = (): Tones => (useDark() ? onInk : onPaper);
