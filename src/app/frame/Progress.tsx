import { stopWork } from '../jobs/workers.ts';

/** How far a piece of work is, what it is doing, and a way to stop it. */
export function Progress({ what, doing, fraction }: { what: string; doing: string; fraction: number }) {
  const percent = Math.round(fraction * 100);
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
        <span style={{ transform: `scaleX(${percent / 100})` }} />
      </div>
      <p>
        {what}: {doing}{' '}
        <button type="button" className="word plain" onClick={stopWork}>
          stop
        </button>
      </p>
    </div>
  );
}
