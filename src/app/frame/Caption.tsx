import type { ImageSize } from '../../core/judge/index.ts';
import type { FaceView } from '../../workers/browser/protocol.ts';
import { sizeWords } from '../look/sizeWords.ts';
import { senseWords } from '../plate/frames.ts';
import { scanById } from '../state/document.ts';
import { useAtDoor } from '../state/door.ts';
import { useView } from '../state/ground.ts';
import { usePair } from '../state/select.ts';
import { actOnView, setState, useDocument, useStore } from '../state/store.ts';
import { useUnnamed } from '../state/unnamed.ts';
import { DifferenceLegend, NoDataSign } from './DifferenceLegend.tsx';
import { LookChoice } from './LookChoice.tsx';
import { kindWords } from './words.ts';

/** The caption under the plate: what is shown, how it is lit, and the choices that belong to the picture. */
export function Caption() {
  const view = useView();
  const step = useStore((state) => state.step);
  const { reference, subject, comparison } = usePair();
  const alone = step === 'face';
  const atDoor = useAtDoor();
  const images = comparison?.judgement?.images;
  const mirrored = comparison?.fit.found === true && comparison.fit.mirrored;
  const differences = !alone && view.look === 'difference' && comparison?.difference;
  if (atDoor) return <div className="caption">{reference && <DoorLegend face={reference} image={images?.[0]} />}</div>;
  return (
    <div className="caption">
      <div className={alone || !(reference && subject) || view.look !== 'pair' ? 'legends together' : 'legends'}>
        {!alone && reference && <Legend letter="a" place="referenceId" face={reference} image={images?.[0]} />}
        {!alone && subject && (
          <Legend letter="b" place="subjectId" face={subject} image={images?.[1]} mirrored={mirrored} />
        )}
        {alone && <FaceLegend />}
      </div>
      <div className="choices-line">
        <div className="choices">
          {!alone && reference && subject && <LookChoice />}
          {!differences && (reference || subject) && <NoDataSign />}
        </div>
        {differences && <DifferenceLegend />}
        <div className="choices">
          {(reference || subject) && (
            <i className="soft">
              Light from {Math.round(view.lamp.azimuthDeg)}°, {Math.round(view.lamp.heightDeg)}° above the face
            </i>
          )}
          {(reference || subject) && <ShadowWord />}
          {!alone && !differences && <EngravedChoice faces={[reference, subject]} />}
          {!alone && reference && subject && <Tools />}
        </div>
      </div>
    </div>
  );
}

interface LegendProps {
  readonly letter: string;
  readonly place: 'referenceId' | 'subjectId';
  readonly face: FaceView;
  /** The size of the seal, where it can be told from that of its cake. */
  readonly image: ImageSize | null | undefined;
  /** Laid on the other as its reflection, since nothing else fits. */
  readonly mirrored?: boolean;
}

function Legend({ letter, place, face, image, mirrored = false }: LegendProps) {
  const title = useDocument((document) => scanById(document, document[place])?.title ?? face.name);
  const simulated = useDocument((document) => scanById(document, document[place])?.simulated ?? false);
  const reduced = useDocument((document) => scanById(document, document[place])?.reduced ?? false);
  const engraved = useDocument((document) => document.view.engraved);
  if (useUnnamed())
    return (
      <p>
        <i>{letter}</i>
      </p>
    );
  return (
    <p>
      <i>{letter}</i>&ensp;{title}. {kindWords[face.kind]},{' '}
      {mirrored ? 'shown as its mirror image' : senseWords(face, engraved)}
      {simulated && ', simulated'}
      {reduced && ', reduced surface'}
      {face.fromFile && ', from a saved file'}; {sizeWords(face, image)}.
    </p>
  );
}

/** What stands in the dark, and that the lamp is the visitor's. */
function DoorLegend({ face, image }: Pick<LegendProps, 'face' | 'image'>) {
  const title = useDocument((document) => scanById(document, document.referenceId)?.title ?? face.name);
  return (
    <div className="legends together">
      <p>
        {title}, as its impression, simulated; {sizeWords(face, image)}.
      </p>
      <p className="soft">The lamp is in your hand: move it over the seal, or with the keys 1 to 9 and 0.</p>
    </div>
  );
}

function FaceLegend() {
  return <p className="soft">One face alone. Drag the mark at the top to where the top of the design is.</p>;
}

function EngravedChoice({ faces }: { faces: ReadonlyArray<FaceView | undefined> }) {
  const engraved = useDocument((document) => document.view.engraved);
  const found = faces.find((face) => face?.sense === 'intaglio');
  return (
    <>
      {found && (
        <button
          type="button"
          className="word"
          onClick={() =>
            actOnView('Engraved face shown otherwise', { engraved: engraved === 'asIs' ? 'asImpression' : 'asIs' })
          }
        >
          {engraved === 'asIs' ? 'engraved face as it is' : 'engraved face as its impression'}
        </button>
      )}
    </>
  );
}

/** Whether shadows are cast; where there is no graphics card they are left out until asked for. */
export function ShadowWord() {
  const shadows = useStore((state) => state.shadows);
  return (
    <button
      type="button"
      className="word"
      aria-pressed={shadows === true}
      onClick={() => setState({ shadows: shadows !== true })}
    >
      shadows
    </button>
  );
}

/** What a drag on the plate draws, for once. */
function Tools() {
  const hand = useStore((state) => state.hand);
  return (
    <>
      <button
        type="button"
        className="word"
        aria-pressed={hand === 'section'}
        onClick={() => setState({ hand: hand === 'section' ? 'look' : 'section' })}
      >
        draw a section
      </button>
      <button
        type="button"
        className="word"
        aria-pressed={hand === 'mark'}
        onClick={() => setState({ hand: hand === 'mark' ? 'look' : 'mark' })}
      >
        mark a region
      </button>
    </>
  );
}
