import { createHash } from 'node:crypto';
import { parentPort, workerData } from 'node:worker_threads';
import { buildSurfaceIndex, vertexNormals } from '../../core/geometry/index.ts';
import { readAndFind } from '../../core/pipeline.ts';
import { ScanError } from '../../core/scan/index.ts';
import type { ReadingJob, ReadingMessage } from './protocol.ts';

const { input, indexed } = workerData as ReadingJob;
const send = (message: ReadingMessage, buffers: ArrayBuffer[] = []): void => parentPort?.postMessage(message, buffers);
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

try {
  const { raw, face } = await readAndFind(
    { ...input, sha256 },
    {
      step: (name) => send({ kind: 'step', name }),
      progress: (fraction, doing) => send({ kind: 'progress', fraction, doing }),
    },
  );
  const normals = vertexNormals(raw.mesh);
  const index = indexed && buildSurfaceIndex(raw.mesh, { normals });
  const found = { raw, face, surface: { normals, ...(index && { index }) } };
  send({ kind: 'found', found }, [...buffersOf(found)]);
} catch (error) {
  if (error instanceof ScanError)
    send({ kind: 'refused', code: error.code, message: error.message, unitChoice: error.unitChoice });
  else send({ kind: 'failed', message: error instanceof Error ? (error.stack ?? error.message) : String(error) });
}

/** Every buffer under a result, once: handed over, not copied. */
function buffersOf(value: unknown, into = new Set<ArrayBuffer>()): Set<ArrayBuffer> {
  if (ArrayBuffer.isView(value)) {
    if (value.buffer instanceof ArrayBuffer) into.add(value.buffer);
  } else if (value !== null && typeof value === 'object')
    for (const part of Object.values(value)) buffersOf(part, into);
  return into;
}
