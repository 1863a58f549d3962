import { scanById } from '../state/document.ts';
import { restate } from '../state/scans.ts';
import { usePair } from '../state/select.ts';
import { useDocument } from '../state/store.ts';

/** Where only a reflection lays b on a: which file to read mirrored back, or that it was. Nothing is reflected unasked. */
export function MirroredFile() {
  const { comparison } = usePair();
  const a = useDocument((document) => scanById(document, document.referenceId));
  const b = useDocument((document) => scanById(document, document.subjectId));
  const stated = [a, b].filter((scan) => scan?.stated.mirrored);
  const mirrored = comparison?.fit.mirrored && !comparison.stated;
  if (!(mirrored || stated.length > 0)) return null;
  return (
    <div className="mirrored-file">
      {stated.map(
        (scan) =>
          scan && (
            <p key={scan.id} className="soft">
              {scan.title} is read mirrored back, as you say.{' '}
              <button
                type="button"
                className="word plain"
                onClick={() => restate(scan.id, { mirrored: undefined }, 'Read as the file has it')}
              >
                read it as the file has it
              </button>
            </p>
          ),
      )}
      {mirrored && (
        <div role="alert">
          <p>
            One of the two files is a mirror image: only a reflection lays one on the other. Which of them it is, the
            surfaces do not say; letters that run the wrong way do.
          </p>
          <p className="seats">
            {[b, a].map(
              (scan, i) =>
                scan && (
                  <button
                    key={scan.id}
                    type="button"
                    className="word plain"
                    onClick={() =>
                      restate(scan.id, { mirrored: scan.stated.mirrored ? undefined : true }, 'Read mirrored back')
                    }
                  >
                    read {'ba'[i]} mirrored back
                  </button>
                ),
            )}
          </p>
        </div>
      )}
    </div>
  );
}
