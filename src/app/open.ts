import { openSamplePair } from './bringIn/samples.ts';
import { keepSaving, restore, sweepFiles } from './state/persist.ts';
import { setState } from './state/store.ts';
import { keepWorking } from './state/work.ts';

/** What happens when the page opens: the last session comes back, or a sample comparison is laid out. */
export async function open(): Promise<void> {
  const before = await restore();
  keepWorking();
  keepSaving();
  setState({ restored: true });
  if (before) void sweepFiles().catch(() => undefined);
  else await openSamplePair();
}
