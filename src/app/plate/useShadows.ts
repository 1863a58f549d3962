import { useStore } from '../state/store.ts';

/** Cast shadows: as set; where nothing is set, on with a graphics card and off without. */
export function useShadows(software: boolean): boolean {
  const set = useStore((state) => state.shadows);
  return set ?? !software;
}
