import { version } from '../../../package.json';
import { useSection } from '../compare/useSection.ts';
import { ReportFiles } from '../frame/ReportFiles.tsx';
import { services } from '../jobs/workers.ts';
import { usePair, useStale } from '../state/select.ts';
import { useDocument, useStore } from '../state/store.ts';

const names = { page: 'ectype-report.html', record: 'ectype-record.json' };

/** The report of the pair on the plate, and its record. */
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
  const order = { key: comparison.key, version, conclusion, simulated, ...(section ? { section } : {}) };
  return <ReportFiles make={() => services().report(order)} names={names} />;
}
