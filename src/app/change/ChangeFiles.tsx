import { version } from '../../../package.json';
import { runOnce } from '../jobs/runner.ts';
import { services } from '../jobs/workers.ts';
import { download } from '../state/download.ts';
import { notify } from '../state/store.ts';
import { useDatedOrder } from './state/useChangeWork.ts';

/** The two pages and the record, made by the same core as on the command line. */
export function ChangeFiles() {
  const dates = useDatedOrder();
  if (!dates) return null;
  const save = async (what: 'page' | 'record'): Promise<void> => {
    const answer = await runOnce(() => services().changeReport({ dates, version }));
    if (answer === 'stopped') return;
    if (!answer.ok) notify(answer.message);
    else if (what === 'page') download(new Blob([answer.value.page], { type: 'text/html' }), 'ectype-change.html');
    else download(new Blob([answer.value.record], { type: 'application/json' }), 'ectype-change.json');
  };
  return (
    <>
      <h3>Report</h3>
      <p className="seats">
        <button type="button" className="word plain" onClick={() => void save('page')}>
          save the report
        </button>
        <button type="button" className="word plain" onClick={() => void save('record')}>
          save the record (JSON)
        </button>
      </p>
    </>
  );
}
