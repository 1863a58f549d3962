import { measureSaved } from '../saved/measureSaved.ts';
import { usePair } from '../state/select.ts';
import { useStore } from '../state/store.ts';

/** Above everything that a saved file states: that it was not worked out here, and the two ways to have it worked out. */
export function FromFile() {
  const { comparison } = usePair();
  const offline = useStore((state) => state.offline);
  if (!comparison?.stated) return null;
  return (
    <div className="from-file" role="note">
      <p>
        <b>Stated by the file.</b> What follows was saved with the comparison; it was not worked out here.
      </p>
      {!offline && (
        <>
          <p className="soft">
            Original scans that are brought in are known by their digests and measured anew. Without them, the surfaces
            in the file can be measured.
          </p>
          <div className="deeds">
            <button type="button" className="deed" onClick={measureSaved}>
              Measure the surfaces
            </button>
          </div>
        </>
      )}
    </div>
  );
}
