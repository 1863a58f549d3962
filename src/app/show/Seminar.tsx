import { useState } from 'react';
import { useChangeView } from '../change/state/useChangeWork.ts';
import type { Slide } from '../state/document.ts';
import { useGrounds } from '../state/ground.ts';
import { newId } from '../state/newId.ts';
import { act, actOnView, documentNow, setState, useDocument, useStore } from '../state/store.ts';
import { beginShow } from './present.ts';
import { riddles, slidesOfDates, slidesOfGrounds } from './readyMade.ts';
import './show.css';

/** An ordered set of saved views with the speaker's own words: a question first, then what is seen, then the finding. */
export function Seminar() {
  const slides = useDocument((document) => document.slides);
  return (
    <>
      <h3>Seminar</h3>
      <p className="soft">
        Lay the plate out, write a question and what the view answers, and keep it. Page keys or a presenter’s remote
        turn the views.
      </p>
      <ol className="slides">
        {slides.map((slide, i) => (
          <SlideEntry key={slide.id} slide={slide} at={i} last={slides.length - 1} />
        ))}
      </ol>
      <NewSlide />
      <ReadyMade />
      <div className="deeds">
        <button type="button" className="deed" disabled={slides.length === 0} onClick={() => beginShow()}>
          Begin the seminar
        </button>
      </div>
    </>
  );
}

const change = (words: string, slides: (now: readonly Slide[]) => readonly Slide[]): void =>
  act(words, (document) => ({ ...document, slides: slides(document.slides) }));

function SlideEntry({ slide, at, last }: { slide: Slide; at: number; last: number }) {
  const move = (by: number): void =>
    change('View moved', (now) => {
      const next = [...now];
      next.splice(at + by, 0, ...next.splice(at, 1));
      return next;
    });
  return (
    <li>
      <button
        type="button"
        className="word plain mark-name"
        onClick={() => {
          actOnView('View of the seminar', documentNow().slides[at].view);
          if (slide.dates) setState({ step: 'change' });
        }}
      >
        {at + 1}. {slide.question || slide.caption}
      </button>
      <span className="seats">
        <button type="button" className="word" disabled={at === 0} onClick={() => move(-1)}>
          earlier
        </button>
        <button type="button" className="word" disabled={at === last} onClick={() => move(1)}>
          later
        </button>
        <button
          type="button"
          className="word"
          onClick={() => change('View taken out', (now) => now.filter(({ id }) => id !== slide.id))}
        >
          take out
        </button>
      </span>
    </li>
  );
}

/** Two sets that need not be laid out by hand. */
function ReadyMade() {
  const grounds = useGrounds();
  const scans = useDocument((document) => document.scans);
  const [a, b] = useDocument(({ referenceId, subjectId }) => `${referenceId} ${subjectId}`).split(' ');
  const faces = useStore((state) => state.faces);
  const dated = useChangeView();
  const first = scans.find(({ id }) => id === a);
  const shaOf = (id: string): string => {
    const face = faces[id];
    return face?.at === 'ready' ? face.value.sha256 : '';
  };
  const others = scans.filter(({ id }) => id !== a && (id === b || shaOf(id) !== ''));
  return (
    <p className="seats">
      {grounds.length > 0 && (
        <button
          type="button"
          className="word plain"
          onClick={() => change('Grounds laid out as views', (now) => [...now, ...slidesOfGrounds(grounds)])}
        >
          lay out the grounds
        </button>
      )}
      {dated && (
        <button
          type="button"
          className="word plain"
          onClick={() => change('Two dates laid out as views', (now) => [...now, ...slidesOfDates(dated)])}
        >
          lay out the two dates
        </button>
      )}
      {first && others.length > 0 && (
        <button
          type="button"
          className="word plain"
          title="a with each of the others, without names or marks until the finding is revealed"
          onClick={() => change('Riddles laid out', (now) => [...now, ...riddles(first, others, shaOf)])}
        >
          lay out riddles
        </button>
      )}
    </p>
  );
}

function NewSlide() {
  const [question, setQuestion] = useState('');
  const [caption, setCaption] = useState('');
  const [notes, setNotes] = useState('');
  const [reveals, setReveals] = useState(false);
  const [unnamed, setUnnamed] = useState(false);
  const keep = (): void => {
    const slide: Slide = {
      ...{ id: newId(), question, caption, reveals, view: documentNow().view },
      ...(notes !== '' && { notes }),
      ...(unnamed && { unnamed }),
    };
    change('View kept', (now) => [...now, slide]);
    setQuestion('');
    setCaption('');
    setNotes('');
    setReveals(false);
    setUnnamed(false);
  };
  return (
    <form
      className="new-slide"
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <label>
        <span className="soft">Question</span>
        <input type="text" value={question} onChange={(event) => setQuestion(event.target.value)} />
      </label>
      <label>
        <span className="soft">What is seen</span>
        <textarea rows={2} value={caption} onChange={(event) => setCaption(event.target.value)} />
      </label>
      <label>
        <span className="soft">For the speaker alone</span>
        <textarea rows={1} value={notes} onChange={(event) => setNotes(event.target.value)} />
      </label>
      <label>
        <input type="checkbox" checked={unnamed} onChange={(event) => setUnnamed(event.target.checked)} /> without names
        or marks until then
      </label>
      <label>
        <input type="checkbox" checked={reveals} onChange={(event) => setReveals(event.target.checked)} /> then reveal
        the finding
      </label>
      <button type="submit" className="word plain" disabled={question + caption === ''}>
        keep this view
      </button>
    </form>
  );
}
