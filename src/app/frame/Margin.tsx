import { type ComponentType, lazy, Suspense } from 'react';
import { BringIn } from '../bringIn/BringIn.tsx';
import { Compare } from '../compare/Compare.tsx';
import { Face } from '../face/Face.tsx';
import { Finding } from '../finding/Finding.tsx';
import { Fit } from '../fit/Fit.tsx';
import { Show } from '../show/Show.tsx';
import type { Step } from '../state/document.ts';
import { useStore } from '../state/store.ts';
import { stepWords } from './stepWords.ts';

/** The reading room's code is fetched when it is first entered. */
const Read = lazy(() => import('../read/ReadMargin.tsx'));

const ofStep: Readonly<Record<Step, ComponentType>> = {
  bringIn: BringIn,
  face: Face,
  fit: Fit,
  compare: Compare,
  finding: Finding,
  read: Read,
  show: Show,
};

/** The words beside the plate: what the current step has to say and to ask. */
export function Margin() {
  const step = useStore((state) => state.step);
  const Words = ofStep[step];
  return (
    // Scrolls by itself, so it must be reachable with the keyboard.
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling region without other stops needs one
    <aside className="margin" aria-label={stepWords[step]} tabIndex={0}>
      <h2>{stepWords[step]}</h2>
      <Suspense fallback={null}>
        <Words />
      </Suspense>
    </aside>
  );
}
