import { useChange } from '../../src/app/change/state/changeStore.ts';
import { useStore } from '../../src/app/state/store.ts';

/** The app's state as it is when a page opens: test files share their modules, and the state lies in them. */
export function freshState(): void {
  useStore.setState(useStore.getInitialState(), true);
  useChange.setState(useChange.getInitialState(), true);
}
