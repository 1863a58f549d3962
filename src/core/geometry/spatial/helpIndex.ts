import { helpLayOut, type SlotsWork } from '../../../kernels/index.ts';
import { type ColumnsWork, helpCut } from './surfaceBlocks.ts';

/** A part of an index's making that another thread may share, as it is sent there. */
export type IndexWork = ColumnsWork | SlotsWork;

/** Asks another thread for help, and does not wait for it. */
export type Help = (work: IndexWork) => void;

/** Does what is left of it, in the thread that was asked. */
export function helpIndex(work: IndexWork): void {
  if (work.kind === 'columns') helpCut(work);
  else helpLayOut(work);
}
