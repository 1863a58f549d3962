import { parentPort } from 'node:worker_threads';
import { unpackFace } from '../../store/keptFace.ts';
import { verifiedPair } from '../../store/verifiedPair.ts';
import type { VerifyJob, VerifyMessage } from './protocol.ts';

const send = (message: VerifyMessage): void => parentPort?.postMessage(message);

/** Compares pairs of kept faces, one after another. */
parentPort?.on('message', ({ id, candidate, query, by }: VerifyJob) => {
  try {
    send({ id, pair: verifiedPair(unpackFace(candidate), unpackFace(query), by) });
  } catch (error) {
    send({ id, failed: error instanceof Error ? error.message : String(error) });
  }
});
