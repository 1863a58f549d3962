import type { LookInput } from '../../../core/read/index.ts';

export type Step = LookInput['steps'][number];
export type StepKind = Step['do'];

/** One number of a step, as the form asks for it. */
export interface StepField {
  readonly name: string;
  readonly label: string;
  readonly step: number;
  readonly min?: number;
}

interface KindWords {
  readonly words: string;
  readonly first: Step;
  readonly fields: readonly StepField[];
}

const mm = (name: string, label: string, step = 0.1): StepField => ({ name, label: `${label}, mm`, step, min: 0 });

/** What can be put into a look: in words, as it begins, and which of its numbers are asked for. */
export const stepKinds: Readonly<Record<StepKind, KindWords>> = {
  fromStart: { words: 'again from the scan', first: { do: 'fromStart' }, fields: [] },
  removeForm: {
    words: 'remove the form',
    first: { do: 'removeForm', order: 2 },
    fields: [{ name: 'order', label: 'order (1 or 2)', step: 1, min: 1 }],
  },
  formRemoved: {
    words: 'remove what is longer than',
    first: { do: 'formRemoved', wavelengthMm: 8 },
    fields: [mm('wavelengthMm', 'wavelength', 0.5)],
  },
  smooth: {
    words: 'smooth',
    first: { do: 'smooth', wavelengthMm: 0.2 },
    fields: [mm('wavelengthMm', 'wavelength', 0.05)],
  },
  bandPass: {
    words: 'keep a band',
    first: { do: 'bandPass', fromMm: 0.2, toMm: 4 },
    fields: [mm('fromMm', 'from'), mm('toMm', 'to')],
  },
  edgeAwareBase: {
    words: 'smooth but at edges',
    first: { do: 'edgeAwareBase', sizeMm: 1, edgeMm: 0.1 },
    fields: [mm('sizeMm', 'size'), mm('edgeMm', 'edges over', 0.05)],
  },
  edgeAwareDetail: {
    words: 'fine detail, edges left out',
    first: { do: 'edgeAwareDetail', sizeMm: 6, edgeMm: 0.4 },
    fields: [mm('sizeMm', 'size', 0.5), mm('edgeMm', 'edges over', 0.05)],
  },
  localHeight: {
    words: 'local height',
    first: { do: 'localHeight', meanMm: 6, asMm: 0.1 },
    fields: [mm('meanMm', 'over', 0.5), mm('asMm', 'drawn as', 0.02)],
  },
  exaggerate: {
    words: 'raise the heights',
    first: { do: 'exaggerate', factor: 2 },
    fields: [{ name: 'factor', label: 'times', step: 0.5, min: 0.1 }],
  },
  light: {
    words: 'lamp',
    first: { do: 'light', lamps: [{ azimuthDeg: 315, heightDeg: 20 }] },
    fields: [
      { name: 'lamps.0.azimuthDeg', label: 'from, degrees', step: 5 },
      { name: 'lamps.0.heightDeg', label: 'above the face, degrees', step: 1, min: 0 },
    ],
  },
  lightAcross: {
    words: 'light across each stroke',
    first: { do: 'lightAcross', strokeMm: 0.4, heightDeg: 20 },
    fields: [mm('strokeMm', 'strokes'), { name: 'heightDeg', label: 'above the face, degrees', step: 1, min: 1 }],
  },
  skyView: {
    words: 'soft light',
    first: { do: 'skyView', radiusMm: 2 },
    fields: [mm('radiusMm', 'horizon within', 0.5)],
  },
  openness: { words: 'openness', first: { do: 'openness', radiusMm: 2 }, fields: [mm('radiusMm', 'within', 0.5)] },
  curvature: {
    words: 'ridges and valleys',
    first: { do: 'curvature', scaleMm: 0.15 },
    fields: [mm('scaleMm', 'at', 0.05)],
  },
  heights: { words: 'heights as grey', first: { do: 'heights' }, fields: [] },
  principalShading: {
    words: 'light from everywhere',
    first: { do: 'principalShading', component: 1 },
    fields: [{ name: 'component', label: 'component (1 to 3)', step: 1, min: 1 }],
  },
  exaggeratedShading: {
    words: 'every scale in raking light',
    first: { do: 'exaggeratedShading' },
    fields: [mm('finestMm', 'finest', 0.05)],
  },
};

/** The number at a dotted path, or undefined where the step leaves it to its default. */
export function fieldOf(step: Step, path: string): number | undefined {
  const value = path
    .split('.')
    .reduce<unknown>((part, key) => (part as Record<string, unknown> | undefined)?.[key], step);
  return typeof value === 'number' ? value : undefined;
}

export function withField(step: Step, path: string, value: number): Step {
  const put = (part: unknown, [key, ...rest]: string[]): unknown => {
    const copy: unknown = Array.isArray(part) ? [...part] : { ...(part as object) };
    const at = copy as Record<string, unknown>;
    at[key] = rest.length === 0 ? value : put(at[key] ?? {}, rest);
    return copy;
  };
  return put(step, path.split('.')) as Step;
}

/** Steps that draw are laid over the picture so far; the others change the heights that the later ones see. */
export const draws = (step: Step): boolean =>
  ![
    'fromStart',
    'removeForm',
    'formRemoved',
    'smooth',
    'bandPass',
    'edgeAwareBase',
    'edgeAwareDetail',
    'localHeight',
    'exaggerate',
  ].includes(step.do);
