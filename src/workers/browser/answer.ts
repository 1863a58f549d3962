import { ScanError } from '../../core/scan/index.ts';
import type { Answer, Failure } from './protocol.ts';

/** What came of a step, or why nothing did: errors do not travel between threads as they are. */
export async function answer<T>(work: () => Promise<T>): Promise<Answer<T>> {
  try {
    return { ok: true, value: await work() };
  } catch (error) {
    return failureOf(error);
  }
}

function failureOf(error: unknown): Failure {
  if (error instanceof ScanError)
    return { ok: false, code: error.code, message: error.message, unitChoice: error.unitChoice };
  const words = error instanceof Error ? error.message : String(error);
  return { ok: false, code: 'unexpected', message: `This step could not be done: ${words}` };
}
