import type { Answer } from '../../../workers/browser/protocol.ts';
import { openReading } from '../../../workers/browser/reading.ts';
import type { ReadingServices } from '../../../workers/browser/readingProtocol.ts';

const without = (): Promise<never> =>
  Promise.reject(new Error('this page holds only what was saved; open it in the app with the scans.'));

let opened: ReadingServices | null = null;

/** The reading room of a page that was saved by itself: it reads the reduced relief, without a worker. */
export function openReadingHere(): ReadingServices {
  opened ??= openReading({
    prepared: without,
    compared: without,
    watchOf: () => ({}),
    async answer<T>(work: () => Promise<T>): Promise<Answer<T>> {
      try {
        return { ok: true, value: await work() };
      } catch (error) {
        const words = error instanceof Error ? error.message : String(error);
        return { ok: false, code: 'unexpected', message: `This could not be worked out: ${words}` };
      }
    },
  });
  return opened;
}
