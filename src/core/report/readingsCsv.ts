import type { ComparedReadings } from '../read/index.ts';
import { writeCsv } from '../scan/index.ts';
import { readingVerdictWords, readPlaceWords } from './words/comparedReadings.ts';

/** Two readings of a legend place by place: number, mm along the band of each, what each reader has, and how they stand (RFC 4180). */
export function readingsCsv({ pairs }: ComparedReadings, names: readonly [string, string]): string {
  const mm = (place: { alongMm: number | null } | null): string => String(place?.alongMm ?? '');
  const rows = pairs.map(({ one, two, verdict }, k) => [
    ...[String(k + 1), mm(one), mm(two)],
    ...[readPlaceWords(one), readPlaceWords(two), readingVerdictWords(verdict)],
  ]);
  return writeCsv([['place', 'mm 1', 'mm 2', names[0], names[1], 'how they stand'], ...rows]);
}
