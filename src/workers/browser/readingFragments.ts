import { partOf, report, type Watch } from '../../core/geometry/index.ts';
import { notDecided, ofOneSeal, overlapsAmong, placeFragments } from '../../core/read/index.ts';
import type { PrintOptions } from '../../core/report/index.ts';
import { overlapWords, standingWords } from '../../core/report/words/index.ts';
import type { ReadingHost } from './readingHost.ts';
import type { FragmentsView, Witnessing } from './readingProtocol.ts';
import { laidOnReference } from './readingStack.ts';

/**
 * Fragments of one seal in their places on the reference, as one plate; which were left out, and why. Throws in words where fewer
 * than two can be shown.
 */
export async function makeFragments(
  host: Pick<ReadingHost, 'prepared' | 'compared'>,
  reference: Witnessing,
  pieces: readonly Witnessing[],
  options: PrintOptions,
  watch: Watch,
): Promise<FragmentsView> {
  const { fragmentsPlate } = await import('../../core/report/index.ts');
  const { witnesses, standings, left } = await laidOnReference(host, reference, pieces, partOf(watch, 0, 0.9));
  const [{ face }, ...fitted] = witnesses;
  const shown = ofOneSeal(fitted, standings);
  if (shown.length < 2)
    throw new Error(
      `fewer than two fragments could be fitted to ${reference.name}. Bring in a whole impression or the matrix.`,
    );
  report(watch, 0.9, 'Laying the fragments in their places');
  const placed = placeFragments(face, shown, face.relief.pitch);
  const plate = fragmentsPlate(face, placed, {
    ...options,
    reference: reference.name,
    undecided: notDecided(shown, standings),
  });
  return {
    plate,
    standings: standings.slice(1).map((standing) => ({ name: standing.name, words: standingWords(standing) })),
    overlaps: overlapsAmong(placed).map((overlap) => overlapWords(overlap)),
    left,
  };
}
