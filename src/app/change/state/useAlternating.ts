import { useEffect, useSyncExternalStore } from 'react';
import { turnDates, useChange } from './changeStore.ts';

/** As long as each date is seen when the leaf turns by itself, ms. */
const turnMs = 1_200;

const asked = matchMedia('(prefers-reduced-motion: reduce)');
const onChange = (told: () => void): (() => void) => {
  asked.addEventListener('change', told);
  return () => asked.removeEventListener('change', told);
};
export const useReducedMotion = (): boolean => useSyncExternalStore(onChange, () => asked.matches);

/** Turns the leaf by itself as long as it is asked for, and never where the system asks for less motion. */
export function useAlternating(): void {
  const on = useChange(({ alternating, look }) => alternating && look === 'turn');
  const still = useReducedMotion();
  useEffect(() => {
    if (!on || still) return;
    const timer = setInterval(turnDates, turnMs);
    return () => clearInterval(timer);
  }, [on, still]);
}
