import { type CardLanguage, legiblePlaces, placeOnSeal, type Strip } from '../core/read/index.ts';
import { lookNameWords } from '../core/report/words/index.ts';
import { standardLooksFor } from './looks.ts';
import { letterHeight } from './stripPlates.ts';

/**
 * Places of all rings as a table (RFC 4180), ring by ring from the clearest to the most doubtful: where each lies, its stroke contrast and the
 * look that gives it, named as in captions. Names of columns are the same in all languages.
 */
export function placesTable(strips: readonly Strip[], language: CardLanguage): string {
  const rows = strips.flatMap((strip, ring) =>
    legiblePlaces(strip, standardLooksFor(letterHeight(strip.band))).map(
      ({ fromColumn, toColumn, deg, contrast, look }, k) => {
        const [from, to] = [fromColumn, toColumn].map((column) => placeOnSeal(strip, column).alongMm.toFixed(2));
        return [
          ring + 1,
          k + 1,
          deg.toFixed(1),
          (deg / 30).toFixed(1),
          from,
          to,
          contrast.toFixed(2),
          quoted(lookNameWords(look.name, language)),
        ];
      },
    ),
  );
  const head = ['ring', 'rank', 'degrees', 'hour', 'fromMm', 'toMm', 'strokeContrast', 'look'];
  return [head, ...rows].map((row) => `${row.join(',')}\r\n`).join('');
}

const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;
