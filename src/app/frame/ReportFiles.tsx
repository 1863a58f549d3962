import type { Answer, ReportFiles as Made } from '../../workers/browser/protocol.ts';
import { runOnce } from '../jobs/runner.ts';
import { download } from '../state/download.ts';
import { notify } from '../state/store.ts';

/** A report as a page and its record as JSON, made by the same core as on the command line when they are asked for. */
export function ReportFiles({
  make,
  names,
}: {
  make: () => Promise<Answer<Made>>;
  names: { readonly page: string; readonly record: string };
}) {
  const save = async (what: 'page' | 'record'): Promise<void> => {
    const answer = await runOnce(make);
    if (answer === 'stopped') return;
    if (!answer.ok) notify(answer.message);
    else if (what === 'page') download(new Blob([answer.value.page], { type: 'text/html' }), names.page);
    else download(new Blob([answer.value.record], { type: 'application/json' }), names.record);
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
