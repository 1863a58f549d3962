import type * as Comlink from 'comlink';
import type { Told } from './protocol.ts';
import type { WholeBench } from './readingProtocol.ts';

/** Stands for the bench in a page that shows a saved comparison: there is nothing to work out in it. */
export function openBench(): { bench: Comlink.Remote<WholeBench>; close(): void } {
  throw new Error('This page only shows what was saved; open it in the app to work on it.');
}

export const warmBenches = (): void => undefined;
export const called = <T>(callback: T): T => callback;
export const listener = (told: Told): Told => told;
export const movable = <T>(value: T): T => value;
