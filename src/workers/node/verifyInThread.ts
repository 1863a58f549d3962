import { Worker } from 'node:worker_threads';
import type { VerifiedPair } from '../../store/verifiedPair.ts';
import type { VerifyJob, VerifyMessage } from './protocol.ts';

interface Waiting {
  resolve(pair: VerifiedPair): void;
  reject(error: Error): void;
}

/** Verifies pairs in one thread beside the caller's, which goes on answering; in the order in which they come. */
export function openVerifier(by: string): {
  verify(candidate: Uint8Array, query: Uint8Array): Promise<VerifiedPair>;
  close(): Promise<unknown>;
} {
  const waiting = new Map<number, Waiting>();
  let count = 0;
  let thread: Worker | null = null;
  const fail = (error: Error): void => {
    thread = null;
    for (const one of waiting.values()) one.reject(error);
    waiting.clear();
  };
  const started = (): Worker => {
    const worker = new Worker(new URL('./verifyThread.js', import.meta.url));
    worker.on('error', fail);
    worker.on('exit', () => fail(new Error('The thread ended.')));
    worker.on('message', (message: VerifyMessage) => {
      const one = waiting.get(message.id);
      waiting.delete(message.id);
      if ('pair' in message) one?.resolve(message.pair);
      else one?.reject(new Error(message.failed));
    });
    return worker;
  };
  return {
    verify: (candidate, query) =>
      new Promise((resolve, reject) => {
        thread ??= started();
        const job: VerifyJob = { id: count++, candidate, query, by };
        waiting.set(job.id, { resolve, reject });
        thread.postMessage(job);
      }),
    close: async () => thread?.terminate(),
  };
}
