import { version } from '../../../package.json';
import { useSection } from '../compare/useSection.ts';
import { runOnce } from '../jobs/runner.ts';
import { services } from '../jobs/workers.ts';
import { download } from '../state/download.ts';
import { usePair, useStale } from '../state/select.ts';
import { notify, useDocument, useStore } from '../state/store.ts';

/** The report as a page and the record as JSON, made by the same core as on the command line. */
export function Report() {
  const { comparison } = usePair();
  const stale = useStale();
  const offline = useStore((state) => state.offline);
  const conclusion = useDocument((document) => document.conclusion);
  const simulated = useDocument((document) =>
    document.scans.some(({ id, simulated: is }) => is && (id === document.referenceId || id === document.subjectId)),
  );
  const line = useDocument((document) => document.view.section);
  const { section } = useSection(line);
  if (!comparison || comparison.stated || offline || stale) return null;
  const save = async (what: 'page' | 'record'): Promise<void> => {
    const order = { key: comparison.key, version, conclusion, simulated, ...(section ? { section } : {}) };
    const answer = await runOnce(() => services().report(order));
    if (answer === 'stopped') return;
    if (!answer.ok) notify(answer.message);
    else if (what === 'page') download(new Blob([answer.value.page], { type: 'text/html' }), 'ectype-report.html');
    else download(new Blob([answer.value.record], { type: 'application/json' }), 'ectype-record.json');
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
