import { type FaceIndex, globalBytes, indexFace } from '../../../src/core/collection/index.ts';
import { type CollectedObject, type CollectionPlan, makeCollection, plainPlan } from '../../populations/collection.ts';

/** An object of a simulated collection and its index; the face itself is let go. */
export interface IndexedObject extends Omit<CollectedObject, 'made' | 'face'> {
  readonly seed: number;
  readonly index: FaceIndex;
}

/** The collections of seeds `from` to `from + count − 1`, made and indexed; CPU seconds an index. */
export function indexedCollections(
  from: number,
  count: number,
  say: (line: string) => void,
  plan: CollectionPlan = plainPlan,
): { objects: IndexedObject[]; secondsEach: number } {
  const objects: IndexedObject[] = [];
  let seconds = 0;
  for (let seed = from; seed < from + count; seed++) {
    for (const { made: _, face, ...object } of makeCollection(seed, plan)) {
      const seen = face();
      const before = cpuSeconds();
      const index = indexFace(seen);
      seconds += cpuSeconds() - before;
      objects.push({ ...object, seed, index });
    }
    say(`collection ${seed} made and indexed, ${objects.length} faces so far`);
  }
  return { objects, secondsEach: seconds / objects.length };
}

export function cpuSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}

/** The global forms of indices, one after another. */
export function tableOf(indices: readonly FaceIndex[]): { count: number; bytes: Uint8Array } {
  const bytes = new Uint8Array(indices.length * globalBytes);
  for (const [k, { global }] of indices.entries()) bytes.set(global, k * globalBytes);
  return { count: indices.length, bytes };
}

/** Whether another object shows the same matrix, or a faithful copy of it. */
export const isRight = (query: IndexedObject, other: IndexedObject): boolean =>
  other !== query && other.matrix === query.matrix && !query.decoy && !other.decoy;
