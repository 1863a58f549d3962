import { useEffect } from 'react';
import { type Binding, bindings } from './bindings.ts';

/** Keys work wherever the hand is, except while something is being typed. */
export function useKeys(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const target = event.target as HTMLElement;
      if (event.defaultPrevented || target.closest('input, textarea, select, dialog[open]')) return;
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
