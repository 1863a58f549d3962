import { useEffect } from 'react';
import type { Constellation } from '../../core/judge/index.ts';
import { number } from '../look/numbers.ts';
import { howWords } from '../plate/LandmarkMarks.tsx';
import { download } from '../state/download.ts';
import {
  addLandmark,
  landmarksBySearch,
  landmarksFile,
  leastLandmarks,
  moveLandmark,
  removeLandmark,
  type ShownLandmark,
  useLandmarks,
} from '../state/landmarks.ts';
import { plateXFromReference } from '../state/onPlate.ts';
import { usePair } from '../state/select.ts';
import { documentNow, setState, useDocument, useStore } from '../state/store.ts';

/** Places of letters and ornaments: what they say, and the way to look at them and to put them right. */
export function Landmarks() {
  const { comparison } = usePair();
  const put = useDocument((document) => document.landmarks);
  const on = useStore((state) => state.hand === 'landmarks');
  // Whoever leaves the step has put the tool down.
  useEffect(() => () => setState((state) => (state.hand === 'landmarks' ? { hand: 'look' } : state)), []);
  const constellation = comparison?.judgement?.constellation;
  if (!constellation) return null;
  return (
    <>
      <h3>Landmarks</h3>
      <p className="num">{placesWords(constellation, put?.length)}</p>
      {put && (
        <p className="doubt">
          The landmarks were put by hand.{' '}
          <button type="button" className="word plain" onClick={landmarksBySearch}>
            leave them to the search again
          </button>
        </p>
      )}
      <button type="button" className="word" aria-pressed={on} onClick={toggleLandmarks}>
        {on ? 'hide the landmarks' : 'show and correct the landmarks'}
      </button>
      {on && <Correct />}
    </>
  );
}

export const toggleLandmarks = (): void =>
  setState((state) => ({ hand: state.hand === 'landmarks' ? 'look' : 'landmarks' }));

function placesWords({ landmarks, unseen, smoothMm, outside }: Constellation, put?: number): string {
  const found = put ?? landmarks.length + unseen.length;
  if (found < leastLandmarks) return `With fewer than ${leastLandmarks} landmarks their places are not compared.`;
  if (landmarks.length === 0)
    return `Too few of ${found} places of letters and ornaments are seen on b to compare them.`;
  return `${landmarks.length} of ${found} places of letters and ornaments are seen on b. Half of them lie within ${number(smoothMm, 3)} mm of where the others put them, ${Math.round(outside * landmarks.length)} outside their error ellipses.`;
}

function Correct() {
  const shown = useLandmarks();
  const selected = useStore((state) => state.selectedLandmark);
  const offline = useStore((state) => state.offline);
  const flip = plateXFromReference(usePair().reference);
  const landmark = selected === null ? undefined : shown[selected];
  return (
    <>
      <p className="soft landmark-key">
        ○ where the others put it, ◇ not where they put it, × not seen on b.
        {!offline && ' Drag one to move it; click where one is missing. What b shows of it is looked for again.'}
      </p>
      {landmark && selected !== null && (
        <Selected key={selected} landmark={landmark} index={selected} offline={offline} />
      )}
      <div className="deeds">
        {!offline && (
          <button
            type="button"
            className="word"
            onClick={() => addLandmark([flip * documentNow().view.camera.x, documentNow().view.camera.y])}
          >
            add one in the middle
          </button>
        )}
        <button
          type="button"
          className="word"
          title="As the command line takes them with --landmarks"
          onClick={() => download(new Blob([landmarksFile()], { type: 'application/json' }), 'landmarks.json')}
        >
          save them as a file
        </button>
      </div>
    </>
  );
}

function Selected(props: { landmark: ShownLandmark; index: number; offline: boolean }) {
  const { landmark, index, offline } = props;
  const { at, placed, how } = landmark;
  const off = placed && Math.hypot(...placed.aloneSmooth);
  const field = (axis: 0 | 1, words: string) => (
    <label>
      <span className="soft">{words}</span>{' '}
      <input
        key={at[axis]}
        type="text"
        inputMode="decimal"
        size={5}
        aria-label={`Landmark ${index + 1}, mm ${words}`}
        defaultValue={number(at[axis], 2)}
        readOnly={offline}
        onBlur={(event) => {
          const value = Number.parseFloat(event.target.value.replace('−', '-').replace(',', '.'));
          if (Number.isFinite(value) && event.target.value !== number(at[axis], 2))
            moveLandmark(index, axis === 0 ? [value, at[1]] : [at[0], value]);
        }}
      />
    </label>
  );
  return (
    <p className="section-ends num">
      <span>
        <span className="mark-number">{index + 1}</span> {howWords[how]}
        {off !== undefined && `, ${number(off, 3)} mm off`}
      </span>
      {field(0, 'across')} {field(1, 'up')}
      {!offline && (
        <button type="button" className="word" onClick={() => removeLandmark(index)}>
          remove
        </button>
      )}
    </p>
  );
}
