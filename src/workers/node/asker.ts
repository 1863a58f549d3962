import type { Worker } from 'node:worker_threads';
import type { Watch } from '../../core/geometry/index.ts';
import { ScanError } from '../../core/scan/index.ts';
import type { Answer, Order } from './protocol.ts';

interface Waiting {
  readonly resolve: (result: unknown) => void;
  readonly reject: (error: Error) => void;
  readonly watch: Watch;
}

/**
 * Sends orders to the thread; each answer goes to whoever asked. One that has failed says so to whoever asks it later. The thread keeps the
 * program going only while something is awaited of it.
 */
export function asker<Asked>(worker: Worker): (asked: Asked, moved?: ArrayBuffer[], watch?: Watch) => Promise<unknown> {
  const waiting = new Map<number, Waiting>();
  let count = 0;
  let failed: Error | undefined;
  worker.on('error', (error) => {
    failed = error;
    for (const one of waiting.values()) one.reject(error);
    waiting.clear();
  });
  worker.on('message', (message: Answer) => answered(message, waiting));
  // Listening alone would keep the program from ending, after a refusal too.
  worker.unref();
  return (asked, moved = [], watch = {}) => {
    // A thread that is gone answers nothing: the program would end without a word.
    if (failed) return Promise.reject(failed);
    return new Promise((resolve, reject) => {
      const order: Order<Asked> = { id: count++, asked };
      waiting.set(order.id, { resolve, reject, watch });
      // While something is awaited the program goes on.
      worker.ref();
      worker.postMessage(order, moved);
    }).finally(() => {
      if (waiting.size === 0) worker.unref();
    });
  };
}

function answered(message: Answer, waiting: Map<number, Waiting>): void {
  const { resolve, reject, watch } = waiting.get(message.id) as Waiting;
  if (message.kind === 'step') watch.step?.(message.name);
  else if (message.kind === 'progress') watch.progress?.(message.fraction, message.doing);
  else {
    waiting.delete(message.id);
    if (message.kind === 'done') resolve(message.result);
    else if (message.kind === 'refused') reject(new ScanError(message.code, message.message, message.unitChoice));
    else reject(new Error(message.message));
  }
}

/** Ends the thread. An answer that comes while it ends must not let the program end before: it would, without a word. */
export function ended(worker: Worker): Promise<unknown> {
  worker.removeAllListeners('message');
  return worker.terminate();
}
