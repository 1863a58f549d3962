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
            Bring the original scans in, and they are known by their digests and measured anew; or measure the surfaces
            that the file holds, which are coarser if they were saved reduced.
          </p>
          <div className="deeds">
            <button type="button" className="word plain" onClick={measureSaved}>
              measure the surfaces of the file
            </button>
          </div>
        </>
      )}
    </div>
  );
}
