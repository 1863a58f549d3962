import { notify, useStore } from '../state/store.ts';

/** One sentence for the user, until it is read. */
export function Notice() {
  const notice = useStore((state) => state.notice);
  const remedy = useStore((state) => state.remedy);
  return (
    <div role="status">
      {notice && (
        <div className="notice">
          <p>{notice}</p>
          {remedy && (
            <button type="button" className="word plain" onClick={remedy.run}>
              {remedy.words}
            </button>
          )}
          <button type="button" className="word" onClick={() => notify(null)}>
            read
          </button>
        </div>
      )}
    </div>
  );
}
