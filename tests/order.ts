import type { TestSpecification } from 'vitest/node';
import { BaseSequencer } from 'vitest/node';

/** Files of more than some three seconds on a quiet machine, the longest first (29 November 2026), so that no worker begins one when the other is done. */
const longest = [
  ...[
    'browser/demonstration',
    'browser/collection',
    'browser/newcomer',
    'browser/saved',
    'package/package',
    'cli/reading',
    'story',
    'browser/read',
  ],
  ...[
    'store/kill',
    'browser/why',
    'samples/pair',
    'scan/realFiles',
    'change/change',
    'pipeline',
    'browser/tray',
    'app/admission',
    'cli/kill',
  ],
  ...[
    'store/work',
    'browser/dates',
    'cli/cli',
    'scan/hostile',
    'read/facingArcs',
    'reference/realPairs',
    'workers/reading',
    'face/find',
    'samples/samples',
  ],
  ...[
    'leaveOut',
    'populations/makePair',
    'samples/wax',
    'read/band',
    'cli/speed',
    'cli/collection',
    'condition/marks/lines/crossingLines',
    'findings',
  ],
  ...[
    'collection/search',
    'store/keptFace',
    'read/strips',
    'cli/change',
    'reference/sameTool',
    'fit/byHand',
    'report/change',
    'store/jobs',
  ],
  ...['browser/hand', 'browser/access', 'fit/fitFaces', 'fit/uncertainty'],
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
