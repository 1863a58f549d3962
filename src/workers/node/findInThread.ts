import { Worker } from 'node:worker_threads';
import type { Watch } from '../../core/geometry/index.ts';
import { type Find, type FoundScan, readAndFind, type ScanInput } from '../../core/pipeline.ts';
import { ScanError } from '../../core/scan/index.ts';
import type { ReadingJob, ReadingMessage } from './protocol.ts';

/** Below this a thread costs more than it saves, bytes. */
const worthAThread = 2_500_000;

/** `readAndFind` in a thread of its own for large files, so that two scans are read at once. The file's bytes go with it: they are read once. */
export const findInThread: Find = (input, watch, toBeIndexed) =>
  input.bytes.length < worthAThread ? readAndFind(input, watch) : inThread(input, watch, toBeIndexed);

function inThread({ sha256: _native, ...input }: ScanInput, watch: Watch, indexed: boolean): Promise<FoundScan> {
  const job: ReadingJob = { input, indexed };
  const { buffer } = input.bytes;
  const whole = buffer instanceof ArrayBuffer && buffer.byteLength === input.bytes.length;
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL('./readingThread.js', import.meta.url), {
      workerData: job,
      transferList: whole ? [buffer] : [],
    });
    worker.once('error', reject);
    worker.on('message', (message: ReadingMessage) => {
      if (message.kind === 'step') watch.step?.(message.name);
      else if (message.kind === 'progress') watch.progress?.(message.fraction, message.doing);
      else if (message.kind === 'found') resolve(message.found);
      else if (message.kind === 'refused') reject(new ScanError(message.code, message.message, message.unitChoice));
      else reject(new Error(message.message));
    });
  });
}
