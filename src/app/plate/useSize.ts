import { type RefObject, useLayoutEffect, useState } from 'react';
import type { Size } from './panes.ts';

/** The size of an element in CSS pixels, kept up to date. */
export function useSize(element: RefObject<HTMLElement | null>): Size {
  const [size, setSize] = useState<Size>({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const node = element.current;
    if (!node) return;
    const measure = (): void => setSize({ width: node.clientWidth, height: node.clientHeight });
    const observer = new ResizeObserver(measure);
    observer.observe(node);
    measure();
    return () => observer.disconnect();
  }, [element]);
  return size;
}
