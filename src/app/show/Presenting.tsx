import { useEffect } from 'react';
import type { GroundCode } from '../../core/report/index.ts';
import { findingParts } from '../../core/report/words/index.ts';
import { DifferenceLegend } from '../frame/DifferenceLegend.tsx';
import { showGround, useGrounds, useView } from '../state/ground.ts';
import { useMarks } from '../state/marks.ts';
import { usePair } from '../state/select.ts';
import { useDocument, useStore } from '../state/store.ts';
import { leaveShow, nextSlide, previousSlide } from './present.ts';
import { openSpeaker, SpeakerWindow } from './SpeakerWindow.tsx';
import './show.css';

/** The speaker's words over the plate: question, then what is seen, then the finding. */
export function Presenting() {
  const at = useStore((state) => state.presenting);
  const part = useStore((state) => state.presentingPart);
  const slides = useDocument((document) => document.slides);
  const speaker = useStore((state) => state.speaker);
  const differences = useView().look === 'difference';
  const slide = at === null ? undefined : slides[at];
  useGroundOf(slide?.ground, slide !== undefined);
  if (!slide || at === null) return null;
  return (
    <div className="presenting" aria-live="polite">
      <h1 className={slide.question ? 'question' : 'unseen'}>{slide.question || 'Seminar'}</h1>
      {part > 0 && slide.caption && <p className="evidence-words">{slide.caption}</p>}
      {part > 1 && slide.reveals && (
        <p className="revealed">
          <Revealed />
        </p>
      )}
      {differences && <DifferenceLegend fixed />}
      <p className="presenting-keys">
        <button type="button" className="word" onClick={previousSlide}>
          before
        </button>
        <span>
          {at + 1} of {slides.length}
        </span>
        <button type="button" className="word" onClick={nextSlide}>
          next
        </button>
        {!speaker && (
          <button type="button" className="word" onClick={openSpeaker}>
            speaker’s window
          </button>
        )}
        <button type="button" className="word" onClick={leaveShow}>
          leave
        </button>
      </p>
      <SpeakerWindow>
        <Revealed />
      </SpeakerWindow>
    </div>
  );
}

/** Gives the plate to the ground of a view, as long as the seminar runs. */
function useGroundOf(code: GroundCode | undefined, showing: boolean): void {
  const ground = useGrounds().find((one) => one.code === code) ?? null;
  const marks = useMarks();
  useEffect(() => {
    if (showing) showGround(ground, marks);
  }, [showing, ground, marks]);
}

/** The tool's finding; what only a saved file states is shown as that. */
function Revealed() {
  const { comparison } = usePair();
  const stated = comparison?.stated;
  if (stated)
    return (
      <>
        <i>As the saved file states: </i>
        {stated.sentence}
      </>
    );
  if (!comparison?.judgement) return <i>Being measured…</i>;
  const { plain, rest } = findingParts(comparison.judgement, comparison.stateSentence);
  return (
    <>
      {plain} <span className="finding-rest">{rest}</span>
    </>
  );
}
