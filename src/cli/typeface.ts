import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Typeface } from '../core/report/index.ts';

/**
 * The typeface that reports carry inside, so that they look alike everywhere: Alegreya (Juan Pablo del Peral, SIL Open
 * Font Licence), 118 kB in the page. Undefined where the package is not installed; the page then takes the reader's own serif.
 */
export function typeface(): Typeface | undefined {
  const { resolve } = createRequire(import.meta.url);
  const file = (style: string): Uint8Array =>
    readFileSync(resolve(`@fontsource-variable/alegreya/files/alegreya-latin-wght-${style}.woff2`));
  try {
    return { name: 'Alegreya', upright: file('normal'), italic: file('italic') };
  } catch {
    return undefined;
  }
}
