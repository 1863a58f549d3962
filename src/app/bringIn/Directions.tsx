import type { Vec3 } from '../../core/geometry/index.ts';
import type { ScanEntry } from '../state/document.ts';
import { restate } from '../state/scans.ts';

const ways: ReadonlyArray<readonly [string, Vec3]> = [
  ['+x', [1, 0, 0]],
  ['−x', [-1, 0, 0]],
  ['+y', [0, 1, 0]],
  ['−y', [0, -1, 0]],
  ['+z', [0, 0, 1]],
  ['−z', [0, 0, -1]],
];

/** Where no face was found: which way, in the file's axes, the sealed side looks. */
export function Directions({ scan }: { scan: ScanEntry }) {
  return (
    <p className="seats">
      <span className="soft">It looks toward</span>
      {ways.map(([words, toward]) => (
        <button
          key={words}
          type="button"
          className="word"
          aria-pressed={scan.stated.toward?.join() === toward.join()}
          onClick={() => restate(scan.id, { toward, candidate: undefined }, 'Side stated')}
        >
          {words}
        </button>
      ))}
    </p>
  );
}
