import type { FaceView } from '../../workers/browser/protocol.ts';
import { number } from '../look/numbers.ts';
import type { ScanEntry } from '../state/document.ts';
import { restateFace } from '../state/scans.ts';

/** The sides of the object that could carry the design, where there are several. */
export function Sides({ scan, face }: { scan: ScanEntry; face: FaceView }) {
  if (face.candidates.length < 2) return null;
  return (
    <>
      <h3>Side</h3>
      <ul>
        {face.candidates.map((side, i) => (
          <li key={side.outward.join()}>
            <button
              type="button"
              className="word"
              aria-pressed={i === face.candidate}
              onClick={() => restateFace(scan.id, { candidate: i, toward: undefined })}
            >
              {i === face.candidate ? 'this side' : 'the side'} facing {direction(side.outward)}
            </button>{' '}
            <span className="soft">
              {number(side.areaMm2 / 100, 1)} cm², relief {number(side.detailMm, 2)} mm
            </span>
          </li>
        ))}
      </ul>
    </>
  );
}

/** A direction in the file's axes by its nearest axis. */
function direction(outward: readonly number[]): string {
  const axis = outward.reduce((best, value, i) => (Math.abs(value) > Math.abs(outward[best]) ? i : best), 0);
  return `${outward[axis] < 0 ? '−' : '+'}${'xyz'[axis]}`;
}
