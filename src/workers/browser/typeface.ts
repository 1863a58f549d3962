import italicUrl from '@fontsource-variable/alegreya/files/alegreya-latin-wght-italic.woff2?url';
import uprightUrl from '@fontsource-variable/alegreya/files/alegreya-latin-wght-normal.woff2?url';
import type { Typeface } from '../../core/report/index.ts';

/** The app's own typeface, for the report to carry inside; undefined where it cannot be had, and the report goes without. */
export async function typeface(): Promise<Typeface | undefined> {
  const bytes = async (url: string): Promise<Uint8Array> => {
    const answer = await fetch(url);
    if (!answer.ok) throw new Error(`${url}: ${answer.status}`);
    return new Uint8Array(await answer.arrayBuffer());
  };
  try {
    const [upright, italic] = await Promise.all([bytes(uprightUrl), bytes(italicUrl)]);
    return { name: 'Alegreya', upright, italic };
  } catch {
    return undefined;
  }
}
