import type { Typeface } from '../core/report/index.ts';
import { fontFile } from './fontFile.ts';

/**
 * The typeface that reports carry inside, so that they look alike everywhere: Alegreya (Juan Pablo del Peral, SIL Open
 * Font Licence), 118 kB in the page. Undefined where the package is not installed; the page then takes the reader's own serif.
 */
export function typeface(): Typeface | undefined {
  const file = (style: string): Uint8Array =>
    fontFile(`@fontsource-variable/alegreya/files/alegreya-latin-wght-${style}.woff2`);
  try {
    return { name: 'Alegreya', upright: file('normal'), italic: file('italic') };
  } catch {
    return undefined;
  }
}
