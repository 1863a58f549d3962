import { number } from '../look/numbers.ts';
import { restateFace } from '../state/scans.ts';
import { useFace, usePair } from '../state/select.ts';
import { setState, useDocument, useStore } from '../state/store.ts';
import { turnedOnFace, uprightOf } from '../state/upright.ts';
import { foundWords, upWords } from './faceWords.ts';
import { Sides } from './Sides.tsx';

/** The face that was found on a scan, and the ways to correct it. */
export function Face() {
  const scans = useDocument((document) => document.scans);
  const subjectId = useDocument((document) => document.subjectId);
  const referenceId = useDocument((document) => document.referenceId);
  const chosen = useStore((state) => state.faceId) ?? subjectId ?? referenceId;
  const scan = scans.find(({ id }) => id === chosen);
  const face = useFace(chosen);
  const pair = usePair();
  const asIs = useDocument((document) => document.view.engraved === 'asIs');
  const seen = face?.sense === 'intaglio' && !asIs ? -1 : 1;
  const turned = face && scan ? turnedOnFace(face, pair, scan.stated.upDeg) : 0;
  if (!scan) return <p>Bring a scan in first; its face is found by itself.</p>;
  return (
    <>
      <p className="seats">
        {scans.map(({ id, title }) => (
          <button
            key={id}
            type="button"
            className="word"
            aria-pressed={id === chosen}
            onClick={() => setState({ faceId: id })}
          >
            {title}
          </button>
        ))}
      </p>
      {face && (
        <>
          <h3>Found</h3>
          <p>{foundWords(face)}</p>
          <h3>Upright</h3>
          <p>
            {upWords[uprightOf(face, pair).from]} Turned by {number(turned, 1).replace(/[.]0$/, '')}°. Drag the mark
            above the face, or:
          </p>
          <Turns id={scan.id} turned={turned} seen={seen} stated={scan.stated.upDeg !== undefined} />
          <h3>Sense</h3>
          <p className="seats">
            {(['intaglio', 'relief'] as const).map((sense) => (
              <button
                key={sense}
                type="button"
                className="word"
                aria-pressed={face.sense === sense}
                onClick={() => restateFace(scan.id, { kind: sense === 'intaglio' ? 'matrix' : 'impression' })}
              >
                {sense === 'intaglio' ? 'engraved, as a matrix' : 'raised, as an impression'}
              </button>
            ))}
          </p>
          <Sides scan={scan} face={face} />
        </>
      )}
    </>
  );
}

interface TurnsProps {
  readonly id: string;
  /** As it stands now, degrees clockwise on the face. */
  readonly turned: number;
  /** −1 where the picture shows the face turned over, and clockwise is the other way. */
  readonly seen: 1 | -1;
  readonly stated: boolean;
}

function Turns({ id, turned, seen, stated }: TurnsProps) {
  const turn = (by: number) => (): void => restateFace(id, { upDeg: ((turned + seen * by + 540) % 360) - 180 });
  return (
    <p className="seats">
      <button type="button" className="word plain" onClick={turn(-90)}>
        quarter left
      </button>
      <button type="button" className="word plain" onClick={turn(90)}>
        quarter right
      </button>
      <button type="button" className="word plain" onClick={turn(180)}>
        upside down
      </button>
      <button
        type="button"
        className="word plain"
        disabled={!stated}
        onClick={() => restateFace(id, { upDeg: undefined })}
      >
        as found
      </button>
    </p>
  );
}
