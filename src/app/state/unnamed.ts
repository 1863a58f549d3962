import { useDocument, useStore } from './store.ts';

/** Whether a riddle of the seminar is on the plate and not revealed yet: then nothing at the seals says what they are. */
export function useUnnamed(): boolean {
  const at = useStore((state) => state.presenting);
  const revealed = useStore((state) => state.presentingPart > 1);
  return useDocument(({ slides }) => at !== null && slides[at]?.unnamed === true) && !revealed;
}
