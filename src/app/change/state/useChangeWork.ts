import { useEffect } from 'react';
import type { ChangeView, DatedOrder } from '../../../workers/browser/changeProtocol.ts';
import { Latest } from '../../jobs/runner.ts';
import { services } from '../../jobs/workers.ts';
import { datesOf } from '../../state/dates.ts';
import type { Document } from '../../state/document.ts';
import type { Faces } from '../../state/seats.ts';
import { useDocument, useStore } from '../../state/store.ts';
import { orderOf } from '../../state/work.ts';
import { setChange, useChange } from './changeStore.ts';

/** What is asked of the worker: null as long as a date is missing, its bytes are not here, or a scan is not read yet. */
export function datedOrder(document: Document, faces: Faces): DatedOrder | null {
  const { earlierId: earlier, laterId: later, earlierAgainId, laterAgainId } = datesOf(document);
  if (!earlier || !later) return null;
  const wanted = [earlier, later, earlierAgainId, laterAgainId];
  if (wanted.some((scan) => scan && faces[scan.id]?.at !== 'ready')) return null;
  const [first, second, firstAgain, secondAgain] = wanted.map((scan) => (scan ? orderOf(scan) : null));
  if (!first || !second) return null;
  const key = [first, second, firstAgain, secondAgain].map((order) => order?.key ?? '').join('\n');
  return { key, earlier: first, later: second, earlierAgain: firstAgain, laterAgain: secondAgain };
}

export function useDatedOrder(): DatedOrder | null {
  const document = useDocument((d) => d);
  const faces = useStore((state) => state.faces);
  return datedOrder(document, faces);
}

const lane = new Latest<ChangeView>();

/** Asks for the change of the dates that are chosen, once both are read. Called once, by the room. */
export function useChangeWork(): void {
  const order = useDatedOrder();
  const key = order?.key ?? null;
  const known = useChange((state) => state.job?.key ?? null);
  // The key stands for the order: it changes whenever what is asked does.
  // biome-ignore lint/correctness/useExhaustiveDependencies: see above
  useEffect(() => {
    if (!order || known === key || lane.asked === key) return;
    lane.want({
      key: order.key,
      ask: (told) => services().change(order, told),
      show: (job) => setChange({ job, ...(job.at === 'ready' && { chosen: null, pointed: null }) }),
    });
  }, [key, known]);
}

/** What was found between the dates that are chosen now. */
export function useChangeView(): ChangeView | null {
  const key = useDatedOrder()?.key;
  const job = useChange((state) => state.job);
  return job?.at === 'ready' && job.key === key ? job.value : null;
}

export const tryChangeAgain = (): void => setChange({ job: null });
