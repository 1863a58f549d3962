import type { AcrossShown, Lamp, LampsShown, ShownWay } from '../../read/index.ts';

const degrees = (value: number): string => `${Number(value.toFixed(1))}°`;

/** "azimuth 315°, height 12°", for captions; strength only where it is not 1. */
export const lampWords = ({ azimuthDeg, heightDeg, strength = 1 }: Lamp): string =>
  `azimuth ${degrees(azimuthDeg)}, height ${degrees(heightDeg)}${strength === 1 ? '' : `, strength ${strength}`}`;

/** Which way a picture shows its object. */
export function viewWords({ view, sense }: ShownWay): string {
  if (view === 'asItIs') return 'shown as it is';
  if (view === 'mirrored') return 'shown mirrored (no object looks like this)';
  if (sense === 'intaglio') return 'shown as its impression (turned over)';
  if (sense === 'relief') return 'shown as its matrix (turned over)';
  return 'shown turned over';
}

const angles = 'Azimuth clockwise from the top of the picture, height above the face plane.';

/** Every angle, what was done to the heights, and which way the object is shown (`way`; empty where that is said elsewhere). */
export function lampsCaption(shown: LampsShown, way: string): string {
  const { lamps, exaggeration, castShadows, soft, softRadiusMm } = shown;
  const parts: string[] = [];
  if (lamps.length === 0) parts.push(`Soft light from an even sky, horizon within ${softRadiusMm} mm`);
  else {
    parts.push(`${lamps.length === 1 ? 'Lamp' : `${lamps.length} lamps`} from ${lamps.map(lampWords).join('; ')}`);
    if (soft > 0) parts.push(`${Math.round(soft * 100)} % soft light, horizon within ${softRadiusMm} mm`);
  }
  if (castShadows) parts.push('with cast shadows');
  if (exaggeration !== 1) parts.push(`heights × ${exaggeration}`);
  return `${[...parts, way].filter(Boolean).join('; ')}. ${angles}`;
}

/** As `lampsCaption`, of light across each stroke. */
export function acrossCaption(shown: AcrossShown, way: string): string {
  const { strokeMm, middleAzimuthDeg, heightDeg, exaggeration } = shown;
  const [from, to] = [middleAzimuthDeg + 270, middleAzimuthDeg + 90].map((value) => value % 360);
  const lit =
    `Lit across each stroke (${strokeMm} mm), azimuth between ${from}° and ${to}° by way of ` +
    `${middleAzimuthDeg}°, height ${heightDeg}°`;
  const raised = exaggeration === 1 ? '' : `heights × ${exaggeration}`;
  return `${[lit, raised, way].filter(Boolean).join('; ')}. ${angles}`;
}
