import type { Size } from '../plate/panes.ts';

let known: Size = { width: 0, height: 0 };

/** The plate's size as last laid out: the same object while it does not change. */
export function plateSize(): Size {
  const plate = document.querySelector('.plate');
  const [width, height] = [plate?.clientWidth ?? 0, plate?.clientHeight ?? 0];
  if (width !== known.width || height !== known.height) known = { width, height };
  return known;
}
