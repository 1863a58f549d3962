import fc from 'fast-check';
import { fromLeiden, fromTei, toLeiden, toTei } from '../../src/core/read/index.ts';
import { anyTranscription } from '../read/anyTranscription.ts';
import { type Row, share } from './table.ts';

/** Leiden print and TEI there and back, on transcriptions with everything that the model can say. */
export function roundTripRow(count = 1000, seed = 2024): Row {
  const list = fc.sample(anyTranscription, { numRuns: count, seed });
  const same = list.filter((each) => {
    const whole = JSON.stringify(sorted(each));
    const throughLeiden = fromLeiden(toLeiden(each));
    const throughTei = fromTei(toTei(throughLeiden));
    return JSON.stringify(sorted(throughLeiden)) === whole && JSON.stringify(sorted(throughTei)) === whole;
  });
  return {
    what: 'Leiden ↔ model ↔ TEI without loss',
    floor: 'all of 1,000',
    measured: share(same.length, list.length),
  };
}

/** Keys in one order, so that only content is compared. */
function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
  return Object.fromEntries(entries.map(([key, each]) => [key, sorted(each)]));
}
