import { useMemo } from 'react';
import type { Vec2 } from '../../core/geometry/index.ts';
import { constellationDefaults, isOutside, type PlacedLandmark } from '../../core/judge/index.ts';
import type { ComparisonView } from '../../workers/browser/protocol.ts';
import { usePair } from './select.ts';
import { act, documentNow, getState, setState, useDocument, useStore } from './store.ts';

/** A landmark as drawn and listed. */
export interface ShownLandmark {
  /** On the reference's face, mm. */
  readonly at: Vec2;
  /** What was measured of it; absent where the subject does not show it, or as long as it was not looked at. */
  readonly placed?: PlacedLandmark;
  readonly how: 'agrees' | 'off' | 'unseen' | 'new';
}

/** With fewer, their places are not compared. */
export const leastLandmarks = constellationDefaults.least;

/** The landmarks that the document asks for, each with what is known of it. */
export function useLandmarks(): readonly ShownLandmark[] {
  const { comparison } = usePair();
  const put = useDocument((document) => document.landmarks);
  const drag = useStore((state) => state.landmarkDrag);
  const shown = useMemo(() => shownOf(comparison, put), [comparison, put]);
  return drag ? shown.map((one, i) => (i === drag.index ? { at: drag.at, how: 'new' as const } : one)) : shown;
}

/** Those that were found, or those put by hand; what was measured is told by the place. */
export function shownOf(comparison: ComparisonView | undefined, put: readonly Vec2[] | null): ShownLandmark[] {
  const constellation = comparison?.judgement?.constellation;
  if (!constellation) return (put ?? []).map((at) => ({ at, how: 'new' }));
  const seen = new Map(constellation.landmarks.map((one) => [placeKey([one.x, one.y]), one]));
  const unseen = new Set((constellation.unseen ?? []).map(({ x, y }) => placeKey([x, y])));
  const all = put ?? [...constellation.landmarks, ...(constellation.unseen ?? [])].map(({ x, y }): Vec2 => [x, y]);
  return all.map((at) => {
    const placed = seen.get(placeKey(at));
    if (placed)
      return {
        at,
        placed,
        how: isOutside(placed.aloneSmooth, placed, constellationDefaults.flowMm) ? 'off' : 'agrees',
      };
    return { at, how: unseen.has(placeKey(at)) ? 'unseen' : 'new' };
  });
}

const placeKey = ([x, y]: Vec2): string => `${x} ${y}`;

/** Whole micrometres: what a hand can put. */
const rounded = ([x, y]: Vec2): Vec2 => [Math.round(x * 1000) / 1000, Math.round(y * 1000) / 1000];

/** The places as they stand: those that were found, until the first is touched. */
function placesNow(): Vec2[] {
  const { comparison, held } = getState();
  const view = comparison?.at === 'ready' ? comparison.value : (held ?? undefined);
  return shownOf(view, documentNow().landmarks).map(({ at }) => at);
}

const change = (words: string, landmarks: readonly Vec2[] | null, merge: string | null = null): void =>
  act(words, (document) => ({ ...document, landmarks }), merge);

/** Places on the reference's face, mm. */
export function moveLandmark(index: number, at: Vec2): void {
  const places = placesNow().map((place, i) => (i === index ? rounded(at) : place));
  change('Landmark moved', places, `landmark ${index}`);
}

export function addLandmark(at: Vec2): void {
  const places = placesNow();
  change('Landmark added', [...places, rounded(at)]);
  setState({ selectedLandmark: places.length });
}

/** Removes one and selects the next. */
export function removeLandmark(index: number): void {
  const places = placesNow().filter((_, i) => i !== index);
  change('Landmark removed', places);
  setState({ selectedLandmark: places.length > 0 ? Math.min(index, places.length - 1) : null });
}

export function landmarksBySearch(): void {
  change('Landmarks left to the search', null);
  setState({ selectedLandmark: null });
}

/** As `--landmarks` of the command line takes them. */
export const landmarksFile = (): string => `${JSON.stringify({ landmarks: placesNow() }, null, 1)}\n`;
