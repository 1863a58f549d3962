import type { ReactNode } from 'react';
import { openSaved } from '../saved/openSaved.ts';
import { bringDates } from '../state/dates.ts';
import { bringIn } from '../state/scans.ts';
import { getState, setState } from '../state/store.ts';
import { PageDrop } from './PageDrop.tsx';
import './bringIn.css';

/** The whole page takes files: scans are brought in, a saved comparison is opened. */
export const DropTarget = ({ children }: { children: ReactNode }) => (
  <PageDrop
    words="Lay the scans down here."
    onFiles={async (files) => {
      if (getState().step === 'change') return bringDates(files);
      if (files.length === 1 && (await openSaved(files[0]))) return;
      setState({ step: 'bringIn', margin: true });
      await bringIn(files);
    }}
  >
    {children}
  </PageDrop>
);
