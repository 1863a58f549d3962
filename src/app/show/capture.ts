import type { Capture } from '../scene/Painter.tsx';

let capture: Capture | null = null;

export const setCapture = (next: Capture): void => {
  capture = next;
};

/** The seals on the plate, painted at `scale` pixels per CSS pixel; null while nothing is painted. */
export const capturePlate = (scale: number): HTMLCanvasElement | null => capture?.(scale) ?? null;
