import type { ReadingServices } from '../../../workers/browser/readingProtocol.ts';

/** Stands for the page's own reading room in the app, whose worker reads: its computing stays out of the page's script. */
export function openReadingHere(): ReadingServices {
  throw new Error('The app reads in its worker.');
}
