import type { Camera, PlateView, Slide } from '../state/document.ts';
import { actOnView, documentNow, getState, setState } from '../state/store.ts';

const calm = (): boolean => matchMedia('(prefers-reduced-motion: reduce)').matches;
const moveMs = 900;

/** Begins the seminar at its first view, over the whole screen where the browser allows it. */
export function beginShow(at = 0): void {
  if (documentNow().slides.length === 0) return;
  document.documentElement.requestFullscreen?.().catch(() => undefined);
  setState({ margin: false });
  goTo(at);
}

export function leaveShow(): void {
  if (document.fullscreenElement) void document.exitFullscreen();
  setState({ presenting: null, margin: true, step: 'show' });
}

/** How many parts a slide is told in: the question, what is seen, and the finding where it is revealed. */
const partsOf = (slide: Slide): number => 1 + Number(slide.caption !== '') + Number(slide.reveals);

/** The next part of the slide, or the next slide with its question alone. */
export function nextSlide(): void {
  const { presenting, presentingPart } = getState();
  const slide = presenting === null ? undefined : documentNow().slides[presenting];
  const first = slide && slide.question === '' ? 1 : 0;
  if (slide && presentingPart + 1 < partsOf(slide) + first) setState({ presentingPart: presentingPart + 1 });
  else goTo((presenting ?? -1) + 1);
}

export const previousSlide = (): void => goTo(Math.max(0, (getState().presenting ?? 1) - 1));

function goTo(index: number): void {
  const slide = documentNow().slides[index];
  if (!slide) return;
  setState({ presenting: index, presentingPart: slide.question === '' ? 1 : 0, step: 'compare' });
  moveTo(slide);
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
