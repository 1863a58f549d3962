import { useDocument, useStore } from '../state/store.ts';
import { stopWork } from '../state/work.ts';

/** What is being worked on, how far it is, and a way to stop it. */
export function Working() {
  const faces = useStore((state) => state.faces);
  const comparison = useStore((state) => state.comparison);
  const scans = useDocument((document) => document.scans);
  const face = scans.find((scan) => faces[scan.id]?.at === 'working');
  const state = face ? faces[face.id] : comparison;
  if (state?.at !== 'working') return null;
  const what = face ? face.title : 'The pair';
  const percent = Math.round(state.fraction * 100);
  return (
    <div className="working">
      <div
        className="working-line"
        role="progressbar"
        aria-label={what}
        aria-valuenow={percent}
        aria-valuemin={0}
        aria-valuemax={100}
      >
        <span style={{ width: `${percent}%` }} />
      </div>
      <p>
        {what}: {state.doing}{' '}
        <button type="button" className="word plain" onClick={stopWork}>
          stop
        </button>
      </p>
    </div>
  );
}
