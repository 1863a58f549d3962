import { useEffect } from 'react';
import { getState } from '../state/store.ts';
import { type Binding, bindings } from './bindings.ts';

/** Keys work wherever the hand is, except while something is being typed. */
export function useKeys(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      // The window itself has no ancestors: keys that go to it are meant for the page.
      const target = event.target instanceof Element ? event.target : document.body;
      if (event.defaultPrevented || target.closest('input, textarea, select, dialog[open]')) return;
      if (belongsToTarget(event.key, target)) return;
      const binding = bindings.find((candidate) => matches(candidate, event));
      if (!binding) return;
      event.preventDefault();
      binding.run();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
}

function matches(binding: Binding, event: KeyboardEvent): boolean {
  const command = event.ctrlKey || event.metaKey;
  if (command !== Boolean(binding.command) || event.altKey) return false;
  // Signs such as + and ? need Shift on some keyboards and not on others, so Shift counts only for letters and arrows.
  if (binding.shift !== undefined && binding.shift !== event.shiftKey) return false;
  return binding.keys.some((key) => key.toLowerCase() === event.key.toLowerCase());
}

const moves = ['ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight', 'PageUp', 'PageDown'];

/** Space presses a button that has the focus, and the margin scrolls by itself; only the seminar takes these keys first. */
function belongsToTarget(key: string, target: Element): boolean {
  if (getState().presenting !== null) return key === ' ' && target.closest('button') !== null;
  if (key === ' ') return true;
  return moves.includes(key) && target.closest('.margin') !== null;
}
