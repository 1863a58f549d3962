import type { AcrossShown, CardLanguage, Lamp, LampsShown, ShownWay } from '../../read/index.ts';
import { captionWords, printed, type WayShown } from './captions/index.ts';

/** "azimuth 315°, height 12°", for captions; strength only where it is not 1. */
export function lampWords({ azimuthDeg, heightDeg, strength = 1 }: Lamp, language: CardLanguage = 'en'): string {
  const w = captionWords[language];
  const degrees = (value: number): string => `${printed(Number(value.toFixed(1)), w)}°`;
  return w.light.lamp(degrees(azimuthDeg), degrees(heightDeg), strength === 1 ? null : printed(strength, w));
}

/** Which way a picture shows its object. */
export const viewWords = (way: ShownWay, language: CardLanguage = 'en'): string =>
  captionWords[language].ways[wayOf(way)];

function wayOf({ view, sense }: ShownWay): WayShown {
  if (view !== 'turnedOver') return view;
  return sense === 'intaglio' ? 'asImpression' : sense === 'relief' ? 'asMatrix' : 'turnedOver';
}

/** Every angle, what was done to the heights, and which way the object is shown (`way`; empty where that is said elsewhere). */
export function lampsCaption(shown: LampsShown, way: string, language: CardLanguage = 'en'): string {
  const { lamps, exaggeration, castShadows, soft, softRadiusMm } = shown;
  const w = captionWords[language];
  const radius = printed(softRadiusMm, w);
  const parts: string[] = [];
  if (lamps.length === 0) parts.push(w.light.evenSky(radius));
  else {
    parts.push(w.light.from(lamps.map((lamp) => lampWords(lamp, language))));
    if (soft > 0) parts.push(w.light.soft(Math.round(soft * 100), radius));
  }
  if (castShadows) parts.push(w.light.castShadows);
  if (exaggeration !== 1) parts.push(w.light.heightsTimes(printed(exaggeration, w)));
  return `${[...parts, way].filter(Boolean).join('; ')}. ${w.light.angles}`;
}

/** As `lampsCaption`, of light across each stroke. */
export function acrossCaption(shown: AcrossShown, way: string, language: CardLanguage = 'en'): string {
  const { strokeMm, middleAzimuthDeg, heightDeg, exaggeration } = shown;
  const w = captionWords[language];
  const number = (value: number): string => printed(value, w);
  const [from, to] = [middleAzimuthDeg + 270, middleAzimuthDeg + 90].map((value) => number(value % 360));
  const lit = w.light.across(number(strokeMm), from, to, number(middleAzimuthDeg), number(heightDeg));
  const raised = exaggeration === 1 ? '' : w.light.heightsTimes(number(exaggeration));
  return `${[lit, raised, way].filter(Boolean).join('; ')}. ${w.light.angles}`;
}
