import { findingSentence } from '../../core/report/words/index.ts';
import { DifferenceLegend } from '../frame/DifferenceLegend.tsx';
import { usePair } from '../state/select.ts';
import { useDocument, useStore } from '../state/store.ts';
import { leaveShow, nextSlide, previousSlide } from './present.ts';
import './show.css';

/** The speaker's words over the plate: question, then what is seen, then the finding. */
export function Presenting() {
  const at = useStore((state) => state.presenting);
  const part = useStore((state) => state.presentingPart);
  const slides = useDocument((document) => document.slides);
  const differences = useDocument((document) => document.view.look === 'difference');
  const slide = at === null ? undefined : slides[at];
  if (!slide || at === null) return null;
  return (
    <div className="presenting" aria-live="polite">
      {slide.question && <p className="question">{slide.question}</p>}
      {part > 0 && slide.caption && <p className="evidence-words">{slide.caption}</p>}
      {part > 1 && slide.reveals && <Revealed />}
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
        <button type="button" className="word" onClick={leaveShow}>
          leave
        </button>
      </p>
    </div>
  );
}

/** The tool's finding; what only a saved file states is shown as that. */
function Revealed() {
  const { comparison } = usePair();
  const stated = comparison?.stated;
  if (stated)
    return (
      <p className="revealed">
        <i>As the saved file states: </i>
        {stated.sentence}
      </p>
    );
  return (
    <p className="revealed">
      {comparison?.judgement && findingSentence(comparison.judgement, comparison.stateSentence)}
    </p>
  );
}
