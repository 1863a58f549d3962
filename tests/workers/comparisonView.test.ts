import { expect, it } from 'vitest';
import type { PreparedScan } from '../../src/core/pipeline.ts';
import { viewsOnce } from '../../src/workers/browser/comparisonView.ts';
import type { FaceView } from '../../src/workers/browser/protocol.ts';

const seen = (face: string) => ({ face: { upFrom: face } }) as unknown as PreparedScan;

it('a face that a comparison settled on is pictured once, however often its pair is shown', async () => {
  const asked: string[] = [];
  const viewOf = viewsOnce(async (key) => {
    asked.push(key);
    return { key } as FaceView;
  });
  const [one, other] = [seen('one'), seen('other')];
  const views = [];
  // The same face in another wrapping, as weighing, measuring and judging hand it on.
  for (const each of [one, { ...one }, other, { ...one }]) views.push(await viewOf(each === other ? 'b' : 'a', each));
  expect(asked).toEqual(['a', 'b']);
  expect(views[3]).toBe(views[0]);
});
