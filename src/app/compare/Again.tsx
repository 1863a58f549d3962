import { stopWork } from '../jobs/workers.ts';
import { useStale } from '../state/select.ts';
import { tryAgain } from '../state/work.ts';

/** Says that the numbers below are those from before something was put by hand, for as long as they are. */
export function Again() {
  const stale = useStale();
  if (!stale) return null;
  if (stale.at === 'working')
    return (
      <p role="status" className="doubt">
        The pair is measured again; until then the numbers are those from before.{' '}
        <button type="button" className="word plain" onClick={stopWork}>
          stop
        </button>
      </p>
    );
  return (
    <p role="alert" className="doubt">
      {stale.words} The numbers are those from before.{' '}
      {stale.canTry && (
        <button type="button" className="word plain" onClick={() => tryAgain(null)}>
          measure again
        </button>
      )}
    </p>
  );
}
