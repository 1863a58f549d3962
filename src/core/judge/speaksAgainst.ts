import type { evidenceDefaults } from './evidenceDefaults.ts';
import type { MeasuredPlaces } from './measure.ts';
import { type Weighed, weighSeen } from './rivals.ts';

/** What the places say over a copy by hand, and how many it rests on. */
export interface Spoken extends Pick<Weighed, 'overCopy' | 'overCopyMost' | 'motif' | 'legendAnew'> {
  /** Places that have `leastPatch` of their patch, and how many of them are asked for. */
  readonly whole: number;
  readonly leastWhole: number;
}

/**
 * What speaks against one matrix. Places between holes are caught by their edges: where less than half have most of their patch, those that do are weighed
 * by themselves too, and of either number the one that speaks less against counts.
 */
export function spokenAgainst(
  places: MeasuredPlaces,
  { overCopy, overCopyMost, motif, legendAnew }: Weighed,
  options: typeof evidenceDefaults,
): Spoken {
  const seen = places.seen.filter(({ whole }) => whole >= options.leastPatch);
  const half = places.seen.length / 2;
  const all = {
    overCopy,
    overCopyMost,
    motif,
    legendAnew,
    whole: seen.length,
    leastWhole: Math.min(Math.ceil(half), options.leastWhole),
  };
  const apart = seen.length < half && seen.length >= options.leastWhole && overCopy <= options.against;
  const alone = apart ? weighSeen({ ...places, seen }) : null;
  if (!alone) return all;
  const anew = [legendAnew, alone.legendAnew].filter((value) => value !== null);
  return {
    ...all,
    overCopy: Math.max(overCopy, alone.overCopy),
    overCopyMost: Math.max(overCopyMost, alone.overCopyMost),
    motif: Math.max(motif, alone.motif),
    legendAnew: anew.length > 0 ? Math.max(...anew) : null,
  };
}
