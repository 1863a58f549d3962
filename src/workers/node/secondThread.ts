import { createHash } from 'node:crypto';
import { parentPort } from 'node:worker_threads';
import { besideDoer } from '../../core/beside.ts';
import type { Face } from '../../core/face/index.ts';
import { type Searched, searchFaces } from '../../core/fit/index.ts';
import { helpIndex } from '../../core/geometry/index.ts';
import { type FoundScan, readAndFind, withSurface } from '../../core/pipeline.ts';
import { ScanError } from '../../core/scan/index.ts';
import { failure } from './failure.ts';
import type { Answer, Asked, Order } from './protocol.ts';
import { withSharedFace } from './sharedFace.ts';

const send = (message: Answer, buffers: ArrayBuffer[] = []): void => parentPort?.postMessage(message, buffers);
const doBeside = besideDoer();
let lastRead: Promise<FoundScan> | null = null;
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** Reads scans and does parts of comparisons, one after another. */
parentPort?.on('message', async ({ id, asked }: Order) => {
  try {
    if ('input' in asked) await read(id, asked);
    else if ('searchedOn' in asked) send({ id, kind: 'done', result: await searchedOn(asked.searchedOn) });
    else if ('help' in asked) send({ id, kind: 'done', result: helpIndex(asked.help) });
    else send({ id, kind: 'done', result: doBeside(asked.job) });
  } catch (error) {
    if (error instanceof ScanError)
      send({ id, kind: 'refused', code: error.code, message: error.message, unitChoice: error.unitChoice });
    else send(failure(id, error));
  }
});

async function read(id: number, { input, indexed }: Extract<Asked, { input: unknown }>): Promise<void> {
  lastRead = readAndFind(
    { ...input, sha256 },
    {
      step: (name) => send({ id, kind: 'step', name }),
      progress: (fraction, doing) => send({ id, kind: 'progress', fraction, doing }),
    },
  ).then(withSharedFace);
  const result = withSurface(await lastRead, indexed);
  // The face stays here as well: it may be searched for.
  const { face: _, ...moved } = result;
  send({ id, kind: 'done', result }, [...buffersOf(moved)]);
}

async function searchedOn(reference: Face): Promise<Searched> {
  const { face } = await (lastRead as Promise<FoundScan>);
  return searchFaces(reference, face);
}

/** Every buffer under a result, once: handed over, not copied. */
function buffersOf(value: unknown, into = new Set<ArrayBuffer>()): Set<ArrayBuffer> {
  if (ArrayBuffer.isView(value)) {
    if (value.buffer instanceof ArrayBuffer) into.add(value.buffer);
  } else if (value !== null && typeof value === 'object')
    for (const part of Object.values(value)) buffersOf(part, into);
  return into;
}
