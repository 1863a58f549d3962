import type { TestSpecification } from 'vitest/node';
import { BaseSequencer } from 'vitest/node';

/** Files of more than some six seconds, the longest first (28 November 2026), so that no worker begins one when the other is done. */
const longest = [
  ...['browser/collection', 'browser/demonstration', 'browser/newcomer', 'browser/saved'],
  ...['browser/why', 'cli/cli', 'browser/read', 'samples/pair', 'cli/reading', 'cli/collection'],
  ...['browser/dates', 'browser/tray', 'story', 'store/work', 'cli/kill', 'change/change', 'store/kill', 'pipeline'],
  ...['scan/realFiles', 'scan/hostile', 'read/facingArcs', 'face/find', 'cli/change', 'populations/makePair'],
  ...['store/keptFace', 'cli/collectionServer', 'read/band', 'workers/reading', 'samples/wax', 'fit/byHand'],
  ...['condition/marks/lines/crossingLines', 'cli/speed', 'samples/samples', 'reference/realPairs', 'findings'],
  ...['collection/search', 'fit/fitFaces', 'leaveOut', 'browser/hand', 'package/package', 'app/admission'],
].map((name) => `tests/${name}.test.ts`);

function rankOf({ moduleId }: TestSpecification): number {
  const path = moduleId.replaceAll('\\', '/');
  const place = longest.findIndex((name) => path.endsWith(`/${name}`));
  return place < 0 ? longest.length : place;
}

/** The longest first, then by size. */
export default class Order extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const bySize = await super.sort(files);
    return bySize
      .map((file) => ({ file, rank: rankOf(file) }))
      .sort((a, b) => a.rank - b.rank)
      .map(({ file }) => file);
  }
}
