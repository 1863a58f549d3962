import type { OpenWorker } from './openWorker.ts';
import type { Told } from './protocol.ts';

/** Stands for the worker in a page that shows a saved comparison: there is nothing to work out in it. */
export function openWorker(): OpenWorker {
  throw new Error('This page only shows what was saved; open it in the app to work on it.');
}

export const helping = (): void => undefined;
export const warmWorkers = (): void => undefined;
export const called = <T>(callback: T): T => callback;
export const listener = (told: Told): Told => told;
export const movable = <T>(value: T): T => value;
