import type { Failure } from '../../workers/browser/protocol.ts';

/** How far a long step has come. */
export type Progress<T> =
  | { readonly at: 'waiting' }
  | { readonly at: 'working'; readonly fraction: number; readonly doing: string }
  | { readonly at: 'ready'; readonly value: T }
  | { readonly at: 'stopped' }
  | { readonly at: 'failed'; readonly failure: Failure };

/** The key changes whenever what is asked for does. */
export type Keyed<T> = Progress<T> & { readonly key: string };
