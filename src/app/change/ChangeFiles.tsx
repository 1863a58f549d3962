import { version } from '../../../package.json';
import { ReportFiles } from '../frame/ReportFiles.tsx';
import { services } from '../jobs/workers.ts';
import { useDatedOrder } from './state/useChangeWork.ts';

const names = { page: 'ectype-change.html', record: 'ectype-change.json' };

/** The two pages and the record. */
export function ChangeFiles() {
  const dates = useDatedOrder();
  return dates && <ReportFiles make={() => services().changeReport({ dates, version })} names={names} />;
}
