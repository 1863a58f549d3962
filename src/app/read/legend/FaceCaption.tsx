import { type Band, parallelAt } from '../../../core/design/index.ts';
import { apply, turnedClockwise } from '../../../core/geometry/index.ts';
import type { View } from '../../../core/read/index.ts';
import { kindWords } from '../../frame/words.ts';
import { sizeMm } from '../../look/numbers.ts';
import { imageOf, sizeWords } from '../../look/sizeWords.ts';
import { usePair } from '../../state/select.ts';
import { LookSelect } from '../light/LookSelect.tsx';
import { SavePicture } from '../light/SavePicture.tsx';
import { actOnRead } from '../state/acts.ts';
import { useReadTurnDeg, useRing, useScan, useShown, useView } from '../state/current.ts';

const viewWords = (sense: 'intaglio' | 'relief'): Readonly<Record<View, string>> => ({
  asItIs: 'as it is',
  turnedOver: sense === 'intaglio' ? 'as its impression' : 'as its matrix',
  mirrored: 'mirrored, as no object looks',
});

/** What the face is and how it is seen; the look with every step and number. */
export function FaceCaption() {
  const { scan, face } = useScan();
  const view = useView();
  const picture = useShown('face');
  const pair = usePair();
  const ring = useRing();
  const turnDeg = useReadTurnDeg();
  if (!scan || !face) return null;
  const words = viewWords(face.sense);
  return (
    <div className="read-caption">
      <p>
        {scan.title}. {kindWords[face.kind]}
        {scan.simulated && ', simulated'}; {sizeWords(face, imageOf(face, pair))}
        {ring && `, ring of the legend ${legendSize(ring.order.band, turnDeg)}`}.
      </p>
      <p className="read-choices">
        <LookSelect of="face" />
        <select
          className="look-select"
          aria-label="How the face is shown"
          value={view}
          onChange={(event) => actOnRead('Face shown otherwise', { view: event.target.value as View })}
        >
          {(['asItIs', 'turnedOver', 'mirrored'] as const).map((each) => (
            <option key={each} value={each}>
              {words[each]}
            </option>
          ))}
        </select>
        <SavePicture of="face" />
        <i className="soft steps" title={picture?.caption}>
          {stepsOf(picture?.caption)}
        </i>
      </p>
    </div>
  );
}

/** Height and width of the legend's ring, upright. */
function legendSize(band: Band, turnDeg: number): string {
  const points = parallelAt(band, band.outerMm);
  const upright = turnedClockwise(turnDeg);
  const [x, y]: [number[], number[]] = [[], []];
  for (let i = 0; i < points.length; i += 2) {
    const at = apply(upright, [points[i], points[i + 1], 0]);
    x.push(at[0]);
    y.push(at[1]);
  }
  return sizeMm(Math.max(...x) - Math.min(...x), Math.max(...y) - Math.min(...y));
}

/** The steps without the name of the look, which stands beside it. */
export const stepsOf = (caption: string | undefined): string => (caption ?? '').replace(/^[^:]*: /, '');
