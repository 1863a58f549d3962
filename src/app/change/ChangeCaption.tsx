import { ShadowWord } from '../frame/Caption.tsx';
import { ScaleLegend } from '../frame/DifferenceLegend.tsx';
import { kindWords } from '../frame/words.ts';
import { sizeWords } from '../look/sizeWords.ts';
import { senseWords } from '../plate/frames.ts';
import { useDates } from '../state/dates.ts';
import { useView } from '../state/ground.ts';
import { useStore } from '../state/store.ts';
import { changeLegend, changeLookWords } from './changeWords.ts';
import { alternate, changeLooks, lookAt, useChange } from './state/changeStore.ts';
import { useReducedMotion } from './state/useAlternating.ts';
import { useChangeView } from './state/useChangeWork.ts';
import { useDatedFaces } from './state/useDatedFaces.ts';

/** The caption: the two dates, how they are seen, and under which light. */
export function ChangeCaption() {
  const { lamp } = useView();
  const { laid } = useDatedFaces();
  const look = useChange((state) => state.look);
  const shown = useStore((state) => state.presenting !== null);
  return (
    <div className="caption">
      <div className={look === 'pair' || !laid ? 'legends' : 'legends together'}>
        <DateLegend date="earlier" />
        <DateLegend date="later" />
      </div>
      <div className="choices-line">
        <div className="choices">{laid && <Looks />}</div>
        {!shown && <MapLegend />}
        <div className="choices">
          <i className="soft">
            Light from {Math.round(lamp.azimuthDeg)}°, {Math.round(lamp.heightDeg)}° above the face
          </i>
          <ShadowWord />
        </div>
      </div>
      {shown && <MapLegend />}
    </div>
  );
}

/** What the colours of the map mean, as long as it is seen. */
function MapLegend() {
  const { laid, earlier } = useDatedFaces();
  const look = useChange((state) => state.look);
  const map = useChangeView()?.map;
  if (!(laid && look === 'map' && map)) return null;
  return (
    <ScaleLegend
      rangeMm={map.endMm}
      levelMm={map.levelOfDetectionMm}
      words={changeLegend(map.endMm, map.levelOfDetectionMm, earlier?.sense === 'intaglio')}
    />
  );
}

function DateLegend({ date }: { date: 'earlier' | 'later' }) {
  const scan = useDates()[date === 'earlier' ? 'earlierId' : 'laterId'];
  const face = useDatedFaces()[date];
  if (!scan || !face) return null;
  return (
    <p>
      <i>{date}</i>&ensp;{scan.title}. {kindWords[face.kind]}, {senseWords(face, 'asImpression')}
      {scan.simulated && ', simulated'}; {sizeWords(face)}.
    </p>
  );
}

function Looks() {
  const look = useChange((state) => state.look);
  const alternating = useChange((state) => state.alternating);
  const mapped = Boolean(useChangeView()?.map);
  const still = useReducedMotion();
  return (
    <>
      <span className="soft">Seen</span>
      {changeLooks.map((name) => (
        <button
          key={name}
          type="button"
          className="word"
          aria-pressed={look === name}
          disabled={name === 'map' && !mapped}
          onClick={() => lookAt(name)}
        >
          {changeLookWords[name]}
        </button>
      ))}
      {look === 'turn' && (
        <button
          type="button"
          className="word plain"
          aria-pressed={alternating && !still}
          disabled={still}
          title={still ? 'The system asks for less motion: T turns the leaf' : 'T turns the leaf by hand'}
          onClick={() => alternate(!alternating)}
        >
          {alternating && !still ? 'turning by itself: stop' : 'turn by itself'}
        </button>
      )}
    </>
  );
}
