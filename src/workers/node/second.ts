import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { awaitedLater, type Beside, type BesideJob } from '../../core/beside.ts';
import type { Face } from '../../core/face/index.ts';
import { type Find, type FoundScan, readAndFind, type ScanInput, withSurface } from '../../core/pipeline.ts';
import { asker, ended } from './asker.ts';
import type { Asked } from './protocol.ts';

/** A second pair of hands for one comparison after another: it reads one of the two scans, and does what `Beside` asks. */
export interface Second {
  /** Reads the scan that is fitted to here and the other there, at the same time. */
  readonly find: Find;
  /** Null where there is no other thread. */
  readonly beside: Beside | null;
  close(): Promise<unknown>;
}

/** A reference's file of so many bytes takes so long to be indexed that parts of its design are looked for meanwhile. */
const worthBeginning = 5_000_000;

/** A thread must load and compile what it runs, 0.8 s on small scans, while the engine compiles for the first one on a second processor anyway. */
const [worthAThread, processors] = [2_500_000, 3];
/** From so many comparisons on it has long compiled what it runs when the last one is made. */
const worthWarming = 3;

/**
 * Opens a thread where that saves time: for large files, `bytes` of a pair together, for several comparisons one after another, or with
 * processors to spare; else the same is done in this one, one thing after another. `forComparing`: the design of what is read will be asked for.
 */
export function openSecond(bytes: number, forComparing: boolean, comparisons = 1): Second {
  const small = availableParallelism() < processors && comparisons < worthWarming;
  const least = small ? 2 * worthAThread : 0;
  return availableParallelism() > 1 && bytes >= least ? inThread(forComparing) : alone;
}

const alone: Second = {
  find: async (input, watch, toBeIndexed) => withSurface(await readAndFind(input, watch), toBeIndexed),
  beside: null,
  close: async () => undefined,
};

function inThread(forComparing: boolean): Second {
  const worker = new Worker(new URL('./secondThread.js', import.meta.url));
  worker.unref();
  const ask = asker<Asked>(worker);
  const begun = new WeakMap<Face, Promise<unknown>>();
  return {
    find: async (input, watch, toBeIndexed) => {
      if (!toBeIndexed) return (await ask(...reading(input), watch)) as FoundScan;
      const large = input.bytes.length > worthBeginning;
      // The other is sent to its thread before this one is busy here.
      await Promise.resolve();
      const found = await readAndFind(input, watch);
      if (large && forComparing) begun.set(found.face, awaitedLater(ask({ job: { kind: 'zones', face: found.face } })));
      return withSurface(found, true);
    },
    beside: ((job: BesideJob) => (job.kind === 'zones' && begun.get(job.face)) || ask({ job })) as Beside,
    close: () => ended(worker),
  };
}

/** The order to read a scan, and the file's buffer, which goes with it where it holds nothing else. */
function reading({ sha256: _native, ...input }: ScanInput): [Asked, ArrayBuffer[]] {
  const { buffer, length } = input.bytes;
  const whole = buffer instanceof ArrayBuffer && buffer.byteLength === length;
  return [{ input, indexed: false }, whole ? [buffer] : []];
}
