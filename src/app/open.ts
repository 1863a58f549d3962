import { openSamplePair } from './bringIn/samples.ts';
import { savedInPage } from './show/offline.ts';
import { fillFromOpened, layOut } from './show/openSaved.ts';
import { unpackComparison } from './show/saved/unpack.ts';
import { historyOf } from './state/history.ts';
import { keepSaving, restore, sweepFiles } from './state/persist.ts';
import { setState } from './state/store.ts';
import { keepWorking } from './state/work.ts';

/** What happens when the page opens: the last session comes back, or a sample comparison is laid out. */
export async function open(): Promise<void> {
  const inside = savedInPage();
  const saved = inside && unpackComparison(inside);
  if (saved) {
    layOut(saved);
    setState({ offline: true });
    return;
  }
  const before = await restore();
  if (before) await fillFromOpened();
  keepWorking();
  keepSaving();
  setState({ restored: true });
  if (before) void sweepFiles().catch(() => undefined);
  // An address that ends in #empty opens with an empty plate.
  else if (location.hash === '#empty') setState({ step: 'bringIn' });
  else {
    await openSamplePair();
    // What the page laid out by itself is not an act of the user.
    setState(({ history }) => ({ history: historyOf(history.present) }));
  }
}
