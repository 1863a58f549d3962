import { useStore } from '../state/store.ts';
import { Figures } from './Figures.tsx';
import { Keep } from './Keep.tsx';
import { Report } from './Report.tsx';
import { Seminar } from './Seminar.tsx';

/** What is kept and shown: figures, the report, a file of the whole, the seminar. */
export function Show() {
  const offline = useStore((state) => state.offline);
  return (
    <>
      <Seminar />
      <Figures />
      <Report />
      {!offline && <Keep />}
    </>
  );
}
