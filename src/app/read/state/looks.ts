import { faintLegendLook, type LookInput, standardLooks } from '../../../core/read/index.ts';
import type { ReadLamp } from '../../state/readDocument.ts';

type Step = LookInput['steps'][number];

/** Every look by name: the ones to begin with, the one for rubbed legends at the letters' height, and the user's own. */
export function allLooks(own: readonly LookInput[], letterMm: number): readonly LookInput[] {
  const faint = faintLegendLook(letterMm);
  return [...standardLooks.map((look) => (look.name === faint.name ? faint : look)), ...own];
}

/** The look of this name, or the first of all. */
export const lookNamed = (name: string, looks: readonly LookInput[]): LookInput =>
  looks.find((look) => look.name === name) ?? looks[0];

/** The lamp that a look is lit by: of its first step that has one; null where none has. */
export function lampOf(look: LookInput): ReadLamp | null {
  for (const step of look.steps) {
    if (step.do === 'light') return step.lamps[0];
    if (step.do === 'lightAcross') return { azimuthDeg: step.middleAzimuthDeg ?? 315, heightDeg: step.heightDeg ?? 20 };
    if (step.do === 'exaggeratedShading') return step.lamp ?? { azimuthDeg: 315, heightDeg: 30 };
  }
  return null;
}

/** The look with its (first) lamp where the user has put it. */
export function withLamp(look: LookInput, lamp: ReadLamp | null): LookInput {
  if (!lamp) return look;
  return { ...look, steps: look.steps.map((step) => stepUnder(step, lamp)) };
}

function stepUnder(step: Step, { azimuthDeg, heightDeg }: ReadLamp): Step {
  switch (step.do) {
    case 'light':
      return { ...step, lamps: step.lamps.map((lamp, i) => (i === 0 ? { ...lamp, azimuthDeg, heightDeg } : lamp)) };
    case 'lightAcross':
      return { ...step, middleAzimuthDeg: azimuthDeg, heightDeg };
    case 'exaggeratedShading':
      return { ...step, lamp: { azimuthDeg, heightDeg } };
    default:
      return step;
  }
}

/** A name that is not taken yet. */
export function freeName(wanted: string, looks: readonly LookInput[]): string {
  const taken = new Set(looks.map((look) => look.name));
  if (!taken.has(wanted)) return wanted;
  for (let k = 2; ; k++) if (!taken.has(`${wanted} ${k}`)) return `${wanted} ${k}`;
}
