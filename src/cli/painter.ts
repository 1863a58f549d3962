import { Worker } from 'node:worker_threads';
import type { FigureToPaint } from '../core/report/index.ts';

export interface PaintOrder extends FigureToPaint {
  readonly id: number;
}

export type PaintedMessage =
  | { readonly id: number; readonly png: Uint8Array }
  | { readonly id: number; readonly failed: string };

/** Paints figures in a thread beside the caller's, which makes tables and pages meanwhile. */
export interface Painter {
  /** The figure as PNG. */
  paint(figure: FigureToPaint): Promise<Uint8Array>;
  close(): Promise<unknown>;
}

interface Waiting {
  resolve(png: Uint8Array): void;
  reject(error: Error): void;
}

/** Opens the thread, which makes itself ready while the caller has other work. */
export function openPainter(): Painter {
  const worker = new Worker(new URL('./paintThread.js', import.meta.url));
  worker.unref();
  const waiting = new Map<number, Waiting>();
  let count = 0;
  let failed: Error | undefined;
  worker.on('error', (error) => {
    failed = error;
    for (const one of waiting.values()) one.reject(error);
    waiting.clear();
  });
  worker.on('message', (message: PaintedMessage) => {
    const one = waiting.get(message.id);
    waiting.delete(message.id);
    if (waiting.size === 0) worker.unref();
    if ('png' in message) one?.resolve(message.png);
    else one?.reject(new Error(message.failed));
  });
  return {
    paint: (figure) =>
      new Promise((resolve, reject) => {
        // A thread that is gone answers nothing: the program would end without a word.
        if (failed) return reject(failed);
        const order: PaintOrder = { id: count++, ...figure };
        waiting.set(order.id, { resolve, reject });
        // While something is awaited the program goes on.
        worker.ref();
        worker.postMessage(order);
      }),
    close: () => {
      worker.removeAllListeners('message');
      return worker.terminate();
    },
  };
}
