import { type ReactNode, useEffect } from 'react';
import { createPortal } from 'react-dom';
import type { Slide } from '../state/document.ts';
import { getState, notify, setState, useDocument, useStore } from '../state/store.ts';
import { nextSlide, previousSlide } from './present.ts';

/** Opens the speaker's window: beside the projector's, on the speaker's own screen. */
export function openSpeaker(): void {
  const speaker = open('', 'ectype-speaker', 'width=620,height=760');
  if (!speaker) {
    notify('The browser kept the speaker’s window shut: allow this page to open windows, then ask for it again.');
    return;
  }
  dress(speaker.document);
  setState({ speaker });
}

/** The page's own look in a window that has nothing yet. */
function dress(there: Document): void {
  there.title = 'Ectype, for the speaker';
  there.documentElement.lang = 'en';
  there.documentElement.dataset.ground = document.documentElement.dataset.ground;
  const sheets = [...document.querySelectorAll<HTMLLinkElement | HTMLStyleElement>('link[rel=stylesheet], style')];
  there.head.replaceChildren(
    ...sheets.map((sheet) => {
      const copy = there.importNode(sheet, true);
      // An empty window has no address that a sheet's could be taken from.
      if (sheet instanceof HTMLLinkElement) copy.setAttribute('href', sheet.href);
      return copy;
    }),
  );
  there.body.replaceChildren();
}

/** What the room does not see: what is told now, its caution, and what comes next. It turns the views, too. */
export function SpeakerWindow({ children }: { children: ReactNode }) {
  const speaker = useStore((state) => state.speaker);
  useEffect(() => {
    if (!speaker) return;
    const onKey = (event: KeyboardEvent): void => {
      const turn = turns[event.key];
      if (!turn) return;
      event.preventDefault();
      turn();
    };
    const gone = (): void => {
      if (getState().speaker === speaker) setState({ speaker: null });
    };
    speaker.addEventListener('keydown', onKey);
    speaker.addEventListener('pagehide', gone);
    return () => {
      speaker.removeEventListener('keydown', onKey);
      speaker.removeEventListener('pagehide', gone);
    };
  }, [speaker]);
  return speaker && !speaker.closed ? createPortal(<Notes>{children}</Notes>, speaker.document.body) : null;
}

const turns: Readonly<Record<string, () => void>> = {
  PageDown: nextSlide,
  ArrowRight: nextSlide,
  ' ': nextSlide,
  PageUp: previousSlide,
  ArrowLeft: previousSlide,
};

function Notes({ children }: { children: ReactNode }) {
  const at = useStore((state) => state.presenting) ?? 0;
  const slides = useDocument((document) => document.slides);
  const [now, next] = [slides[at], slides[at + 1]];
  if (!now) return null;
  return (
    <main className="speaker">
      <p className="soft num">
        {at + 1} of {slides.length}
      </p>
      <Told slide={now} />
      {now.reveals && (
        <p>
          <b>To be revealed.</b> {children}
        </p>
      )}
      <h2>Next</h2>
      {next ? <Told slide={next} /> : <p className="soft">This is the last view.</p>}
      <p className="presenting-keys">
        <button type="button" className="word" onClick={previousSlide}>
          before
        </button>
        <button type="button" className="word" onClick={nextSlide}>
          next
        </button>
      </p>
    </main>
  );
}

/** One view in the speaker's words, with what speaks against its ground. */
function Told({ slide }: { slide: Slide }) {
  const scans = useDocument((document) => document.scans);
  const names = slide.pair?.map((id, i) => `${'ab'[i]} ${scans.find((scan) => scan.id === id)?.title ?? 'put away'}`);
  return (
    <>
      {slide.question && <p className="speaker-question">{slide.question}</p>}
      {names && <p>{names.join('; ')}.</p>}
      {slide.caption && <p>{slide.caption}</p>}
      {slide.notes && <p>{slide.notes}</p>}
    </>
  );
}
