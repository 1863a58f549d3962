import { useRef, useState } from 'react';
import { type LookInput, lampsRound } from '../../../core/read/index.ts';
import type { FacePicture } from '../../../workers/browser/readingProtocol.ts';
import { download } from '../../state/download.ts';
import { notify, useDocument, useStore } from '../../state/store.ts';
import { askOnce } from '../state/ask.ts';
import { useLook, useReadTurnDeg, useScan, useSource, useView } from '../state/current.ts';
import { lampOf, withLamp } from '../state/looks.ts';
import { setRead, useRead } from '../state/readStore.ts';
import { canFilm, film } from './film.ts';

const raking: LookInput = {
  name: 'Raking light',
  steps: [{ do: 'light', lamps: [{ azimuthDeg: 315, heightDeg: 20 }] }],
};

/** The lamp going once round the face, slowly, as a film; its angles stand in every frame. */
export function Sweep() {
  const { scan } = useScan();
  const source = useSource();
  const view = useView();
  const turnDeg = useReadTurnDeg();
  const chosen = useLook('face');
  const moved = useDocument((document) => document.read.lamp);
  const offline = useStore((state) => state.offline);
  const filming = useRead((state) => state.filming);
  const [seconds, setSeconds] = useState(12);
  const stop = useRef<AbortController | null>(null);
  if (!scan || !source || offline || !canFilm()) return null;
  const look = lampOf(chosen) ? chosen : raking;
  const heightDeg = (moved ?? lampOf(look))?.heightDeg ?? 20;
  const make = async (): Promise<void> => {
    stop.current = new AbortController();
    const { signal } = stop.current;
    setRead({ filming: 0 });
    const lamps = lampsRound(72, heightDeg);
    const frames: FacePicture[] = [];
    for (const lamp of lamps) {
      const answer = await askOnce((reading, told) =>
        reading.face(source, withLamp(look, lamp), { view, turnDeg }, told),
      );
      if (answer === 'stopped') stop.current.abort();
      if (signal.aborted || answer === 'stopped') break;
      if (!answer.ok) {
        notify(answer.message);
        stop.current.abort();
        break;
      }
      frames.push(answer.value);
      setRead({ filming: frames.length / lamps.length / 2 });
    }
    const captions = lamps.map(
      (lamp) => `Lamp from ${lamp.azimuthDeg}°, ${heightDeg}° above the face; azimuth clockwise from the top.`,
    );
    const title = `${scan.title}${scan.simulated ? ' (simulated)' : ''}`;
    const done = signal.aborted
      ? null
      : await film({ frames, captions, title, seconds, signal, told: (part) => setRead({ filming: 0.5 + part / 2 }) });
    setRead({ filming: null });
    if (done) download(done, `${scan.name.replace(/\.[^.]+$/, '')}-sweep.webm`);
  };
  return (
    <>
      <h3>Slow sweep</h3>
      {filming === null ? (
        <p className="seats">
          <label>
            <input
              type="number"
              min={4}
              max={60}
              value={seconds}
              onChange={(event) => setSeconds(Math.min(60, Math.max(1, Number(event.target.value))))}
            />{' '}
            seconds, {heightDeg}° above
          </label>
          <button type="button" className="word plain" onClick={() => void make()}>
            save as a film
          </button>
        </p>
      ) : (
        <p role="status">
          {filming < 0.5 ? 'Lighting' : 'Recording'}: {Math.round(filming * 100)} %{' '}
          <button type="button" className="word plain" onClick={() => stop.current?.abort()}>
            stop
          </button>
        </p>
      )}
    </>
  );
}
