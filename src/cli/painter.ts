import { Worker } from 'node:worker_threads';
import type { FigureToPaint } from '../core/report/index.ts';
import { asker, ended } from '../workers/node/asker.ts';

/** Paints figures in a thread beside the caller's, which makes tables and pages meanwhile. */
export interface Painter {
  /** The figure as PNG. */
  paint(figure: FigureToPaint): Promise<Uint8Array>;
  close(): Promise<unknown>;
}

/** Opens the thread, which makes itself ready while the caller has other work. */
export function openPainter(): Painter {
  const worker = new Worker(new URL('./paintThread.js', import.meta.url));
  const ask = asker<FigureToPaint>(worker);
  return {
    paint: async (figure) => (await ask(figure)) as Uint8Array,
    close: () => ended(worker),
  };
}
