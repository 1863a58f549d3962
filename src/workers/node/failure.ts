import type { Answer } from './protocol.ts';

/** Why there is no result, as the thread tells it. */
export const failure = (id: number, error: unknown): Answer => ({
  id,
  kind: 'failed',
  message: error instanceof Error ? (error.stack ?? error.message) : String(error),
});
