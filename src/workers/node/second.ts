import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { awaitedLater, type Beside, type BesideJob, zonesJob } from '../../core/beside.ts';
import type { Face } from '../../core/face/index.ts';
import type { Searched } from '../../core/fit/index.ts';
import type { Help } from '../../core/geometry/index.ts';
import {
  type Find,
  type FoundScan,
  isInMillimetres,
  readAndFind,
  type ScanInput,
  withSurface,
} from '../../core/pipeline.ts';
import { asker, ended } from './asker.ts';
import type { Asked } from './protocol.ts';
import { withSharedFace } from './sharedFace.ts';

/** A second pair of hands for one comparison after another: it reads one of the two scans, and does what `Beside` asks. */
export interface Second {
  /** Reads the scan that is fitted to here and the other there, at the same time. */
  readonly find: Find;
  /** Null where there is no other thread. */
  readonly beside: Beside | null;
  /** What it found when it searched these two faces while this thread was busy; undefined where it did not. */
  searched(reference: Face, subject: Face): Promise<Searched | undefined>;
  close(): Promise<unknown>;
}

/** A reference's file of so many bytes takes so long to be indexed that parts of its design are looked for meanwhile. */
const worthBeginning = 5_000_000;

/** On two processors a thread must load and compile what it runs while the engine compiles for the first one beside it: a pair of so many bytes makes up for that, … */
const worthAThread = 2_000_000;
/** … and one of so many for reading there too: before, the finding would wait for it. */
const worthReading = 5_000_000;
const processors = 3;
/** A surface of so many triangles is indexed in both threads. */
const worthHelping = 1_000_000;
/** From so many comparisons on it has long compiled what it runs when the last one is made. */
const worthWarming = 3;

/**
 * Opens a thread where that saves time: for large files, `bytes` of a pair together, for several comparisons one after another, or with
 * processors to spare. Of a middling pair both scans are read in this one, while the other loads what it runs.
 * `forComparing`: the design of what is read will be asked for.
 */
export function openSecond(bytes: number, forComparing: boolean, comparisons = 1): Second {
  const ample = availableParallelism() >= processors || comparisons >= worthWarming;
  if (availableParallelism() === 1 || (!ample && bytes < worthAThread)) return alone;
  return inThread(forComparing, ample || bytes >= worthReading);
}

const alone: Second = {
  find: async (input, watch, toBeIndexed) => withSurface(await readAndFind(input, watch), toBeIndexed),
  beside: null,
  searched: async () => undefined,
  close: async () => undefined,
};

/** `readsThere`: the thread reads the scan that is not indexed. */
function inThread(forComparing: boolean, readsThere: boolean): Second {
  const worker = new Worker(new URL('./secondThread.js', import.meta.url));
  const ask = asker<Asked>(worker);
  const begun = new WeakMap<Face, Promise<unknown>>();
  const searches = new WeakMap<Face, { readonly subject: Promise<FoundScan>; readonly found: Promise<Searched> }>();
  let subject: Promise<FoundScan> | undefined;
  let indexed: Promise<unknown> | undefined;
  /** What a comparison will ask for is begun while the surface is indexed here. */
  const begin = (face: Face): void => {
    if (subject) searches.set(face, { subject, found: awaitedLater(ask({ searchedOn: face }) as Promise<Searched>) });
    begun.set(face, awaitedLater(ask({ job: zonesJob(face) })));
  };
  const help: Help = (work) => void awaitedLater(ask({ help: work }));
  return {
    find: async (input, watch, toBeIndexed) => {
      if (readsThere && !toBeIndexed) {
        subject = ask(...reading(input), watch) as Promise<FoundScan>;
        return subject;
      }
      // The other is sent to its thread before this one is busy here.
      if (readsThere) await Promise.resolve();
      const begins = forComparing && toBeIndexed && (!readsThere || input.bytes.length > worthBeginning);
      // The other thread has work as soon as the reference's face is found, so that is not kept waiting.
      if (!readsThere && !toBeIndexed) await indexed?.catch(() => undefined);
      const finding = readAndFind(readsThere ? takenOver(input) : input, watch);
      // What is found of a large file is kept by whoever asked alone: it grows when it is indexed.
      if (toBeIndexed && !readsThere) indexed = finding;
      const found = withSharedFace(await finding);
      if (begins && isInMillimetres(found, input.unit)) begin(found.face);
      return withSurface(found, toBeIndexed, found.raw.triangles >= worthHelping ? help : undefined);
    },
    beside: ((job: BesideJob) => (job.kind === 'zones' && begun.get(job.face)) || ask({ job }, movedOf(job))) as Beside,
    searched: async (reference, other) => {
      const search = searches.get(reference);
      return search && (await search.subject).face === other ? search.found : undefined;
    },
    close: () => ended(worker),
  };
}

/** Copies that were made for the job alone go with it. */
const movedOf = (job: BesideJob): ArrayBuffer[] =>
  job.kind === 'depths' ? [job.positions.buffer as ArrayBuffer, job.normals.buffer as ArrayBuffer] : [];

/** The order to read a scan, and the file's buffer, which goes with it where it holds nothing else. */
function reading({ sha256: _native, ...input }: ScanInput): [Asked, ArrayBuffer[]] {
  return [{ input, indexed: false }, wholeBuffer(input.bytes)];
}

/** The same input, which alone holds the file's buffer: it is let go as soon as it is read. */
function takenOver(input: ScanInput): ScanInput {
  const moved = wholeBuffer(input.bytes);
  return moved.length > 0 ? { ...input, bytes: structuredClone(input.bytes, { transfer: moved }) } : input;
}

const wholeBuffer = ({ buffer, length }: Uint8Array): ArrayBuffer[] =>
  buffer instanceof ArrayBuffer && buffer.byteLength === length ? [buffer] : [];
