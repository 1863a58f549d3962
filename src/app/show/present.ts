import { withoutByHand } from '../state/byHand.ts';
import { type Camera, type Document, type PlateView, type Slide, scanById } from '../state/document.ts';
import { act, actOnView, documentNow, getState, setState } from '../state/store.ts';

const calm = (): boolean => matchMedia('(prefers-reduced-motion: reduce)').matches;
const moveMs = 900;

/** What lay on the plate before the seminar. */
let before: Document | null = null;

/** Begins the seminar at its first view, over the whole screen where the browser allows it. */
export function beginShow(at = 0): void {
  if (documentNow().slides.length === 0) return;
  document.documentElement.requestFullscreen?.().catch(() => undefined);
  before = documentNow();
  setState({ margin: false });
  goTo(at);
}

/** Leaves it, and lays back what lay on the plate before. */
export function leaveShow(): void {
  if (document.fullscreenElement) void document.exitFullscreen();
  getState().speaker?.close();
  setState({
    ...{ presenting: null, margin: true, step: 'show' },
    ...{ ground: null, standIn: null, handLamp: null, speaker: null },
  });
  const [lay, now] = [before, documentNow()];
  before = null;
  if (lay && (lay.referenceId !== now.referenceId || lay.subjectId !== now.subjectId))
    act('Seminar left', ({ slides }) => ({ ...lay, slides }), 'seminar');
}

/** The last part that a slide is told in: the question is 0, what is seen 1, the finding 2. */
const lastPart = (slide: Slide): number => (slide.reveals ? 2 : slide.caption === '' ? 0 : 1);

/** The next part of the slide, or the next slide with its question alone. */
export function nextSlide(): void {
  const { presenting, presentingPart } = getState();
  const slide = presenting === null ? undefined : documentNow().slides[presenting];
  if (slide && presentingPart < lastPart(slide))
    setState({ presentingPart: slide.caption === '' ? 2 : presentingPart + 1 });
  else goTo((presenting ?? -1) + 1);
}

export const previousSlide = (): void => goTo(Math.max(0, (getState().presenting ?? 1) - 1));

function goTo(index: number): void {
  const slide = documentNow().slides[index];
  if (!slide) return;
  const presentingPart = slide.question === '' && slide.caption !== '' ? 1 : 0;
  const step = slide.dates ? 'change' : 'compare';
  setState({ presenting: index, presentingPart, step, handLamp: null });
  layPair(slide);
  moveTo(slide);
}

/** The scans of a slide take the plate; what was put by hand belongs to the pair before, and comes back when the seminar is left. */
function layPair({ pair }: Slide): void {
  const now = documentNow();
  if (!pair?.every((id) => scanById(now, id))) return;
  const [referenceId, subjectId] = pair;
  if (now.referenceId === referenceId && now.subjectId === subjectId) return;
  const bare = { compare: true, fresh: [], marks: {}, ownMarks: [] };
  act(
    'View of the seminar',
    (document) => ({ ...withoutByHand(document), ...bare, referenceId, subjectId }),
    'seminar',
  );
}

let frame = 0;

/** The plate moves to the view of a slide; at once where motion is to be reduced. */
function moveTo(slide: Slide): void {
  cancelAnimationFrame(frame);
  const from = documentNow().view;
  const to = slide.view;
  if (calm() || from.look !== to.look) {
    actOnView('View of the seminar', to, 'seminar');
    return;
  }
  const start = performance.now();
  const step = (now: number): void => {
    const t = Math.min(1, (now - start) / moveMs);
    actOnView('View of the seminar', between(from, to, t * t * (3 - 2 * t)), 'seminar');
    if (t < 1) frame = requestAnimationFrame(step);
  };
  frame = requestAnimationFrame(step);
}

function between(a: PlateView, b: PlateView, t: number): PlateView {
  if (t >= 1) return b;
  const mix = (x: number, y: number): number => x + (y - x) * t;
  const round = ((b.lamp.azimuthDeg - a.lamp.azimuthDeg + 540) % 360) - 180;
  const camera = Object.fromEntries(
    (Object.keys(a.camera) as (keyof Camera)[]).map((key) => [key, mix(a.camera[key], b.camera[key])]),
  ) as unknown as Camera;
  const lamp = {
    azimuthDeg: (a.lamp.azimuthDeg + round * t + 360) % 360,
    heightDeg: mix(a.lamp.heightDeg, b.lamp.heightDeg),
  };
  return { ...b, camera, lamp, divider: mix(a.divider, b.divider) };
}
