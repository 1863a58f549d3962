import { type RefObject, useLayoutEffect, useState } from 'react';

/** Rows beyond the edge that are drawn as well. */
const spare = 6;

/** From and to of the rows of one height that are seen in a scrolling element. */
export function useWindow(element: RefObject<HTMLElement | null>, count: number, rowPx: number) {
  const [seen, setSeen] = useState({ top: 0, height: 0 });
  useLayoutEffect(() => {
    const node = element.current;
    if (!node) return;
    const look = (): void => setSeen({ top: node.scrollTop, height: node.clientHeight });
    const observer = new ResizeObserver(look);
    observer.observe(node);
    node.addEventListener('scroll', look, { passive: true });
    look();
    return () => {
      observer.disconnect();
      node.removeEventListener('scroll', look);
    };
  }, [element]);
  const from = Math.max(0, Math.min(count, Math.floor(seen.top / rowPx)) - spare);
  return { from, to: Math.min(count, Math.ceil((seen.top + seen.height) / rowPx) + spare) };
}
