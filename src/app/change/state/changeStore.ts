import { create } from 'zustand';
import type { ChangeView } from '../../../workers/browser/changeProtocol.ts';
import type { Keyed } from '../../jobs/progress.ts';
import { lampAcross } from '../../state/ground.ts';
import { getState, setState } from '../../state/store.ts';

/** How the two dates are seen: in one place one after the other, beside one another, or what changed, over the earlier. */
export const changeLooks = ['turn', 'pair', 'map'] as const;
export type ChangeLook = (typeof changeLooks)[number];

interface ChangeState {
  readonly look: ChangeLook;
  readonly onTop: 'earlier' | 'later';
  /** Whether the leaf turns by itself: only as long as it is asked for. */
  readonly alternating: boolean;
  readonly job: Keyed<ChangeView> | null;
  /** Ids of the change that is chosen and of that under the hand. */
  readonly chosen: string | null;
  readonly pointed: string | null;
}

/** What the room of two dates shows and does not keep. */
export const useChange = create<ChangeState>()(() => ({
  look: 'turn',
  onTop: 'earlier',
  alternating: false,
  job: null,
  chosen: null,
  pointed: null,
}));

export const changeNow = useChange.getState;
export const setChange = useChange.setState;

/** Shows the other date in the same place. */
export const turnDates = (): void =>
  setChange(({ onTop }) => ({ look: 'turn', onTop: onTop === 'earlier' ? 'later' : 'earlier' }));

/** Looks otherwise; the leaf rests. */
export const lookAt = (look: ChangeLook): void => setChange({ look, alternating: false });

export function alternate(on: boolean): void {
  setChange({ alternating: on, ...(on && { look: 'turn' as const }) });
}

/** Chooses a change and turns the lamp across it, or lets go of it. */
export function chooseChange(change: ChangeView['changes'][number] | null): void {
  const lit = change && change.outline.length > 2;
  setChange({ chosen: change?.id ?? null });
  setState({ standIn: lit ? { lamp: lampAcross(change.outline, getState().turnDeg) } : null });
}
