import { openSamplePair } from './bringIn/samples.ts';
import { fillFromOpened, inPage, layOut } from './saved/openSaved.ts';
import { unpackComparison } from './saved/unpack.ts';
import { savedInPage } from './show/offline.ts';
import { historyOf } from './state/history.ts';
import { keepSaving, restore, sweep } from './state/persist.ts';
import { notify, setState } from './state/store.ts';
import { keepWorking } from './state/work.ts';

/** What happens when the page opens: what this tab had before comes back, or a sample comparison is laid out. */
export async function open(): Promise<void> {
  try {
    if (await openedOffline()) return;
    const before = await restore();
    if (before) await fillFromOpened();
    keepWorking();
    keepSaving();
    setState({ restored: true });
    void sweep().catch(() => undefined);
    if (before) return;
    // An address that ends in #empty opens with an empty plate.
    if (location.hash === '#empty') setState({ step: 'bringIn' });
    else {
      setState({ step: 'door' });
      await openSamplePair();
      // What the page laid out by itself is not an act of the user.
      setState(({ history }) => ({ history: historyOf(history.present) }));
    }
  } catch (error) {
    notify(error instanceof Error ? error.message : String(error));
  }
}

/** A page that carries its comparison inside shows that and nothing else. */
async function openedOffline(): Promise<boolean> {
  const inside = savedInPage();
  if (!inside) return false;
  setState({ offline: true });
  const saved = await unpackComparison(inside, 'in this page', inPage);
  if (saved) layOut(saved);
  else notify('What this page should show is not in it.');
  return true;
}
