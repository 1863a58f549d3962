import type { LookInput } from './look.ts';

/**
 * The look for a rubbed legend: heights against their surroundings, strokes light on dark, with their ridges brought
 * out. On letters rubbed down by 60 % it parts stroke from ground with an area under the curve of 0.97, where raking
 * light from the upper left, which darkens one flank and lightens the other, gives 0.49: docs/read.md.
 */
export const faintLegendLook = (letterMm: number): LookInput & { readonly name: 'Faint legend' } => ({
  name: 'Faint legend',
  steps: [
    { do: 'smooth', wavelengthMm: Number((0.06 * letterMm).toFixed(2)) },
    { do: 'localHeight', meanMm: Number((2 * letterMm).toFixed(1)), asMm: 0.1 },
    { do: 'heights' },
    { do: 'curvature', scaleMm: Number((0.05 * letterMm).toFixed(2)), show: 'ridges', over: 'mix', share: 0.35 },
  ],
});

/** Looks to begin with; the user changes and saves them. */
const looksToBeginWith = [
  { name: 'Raking light', steps: [{ do: 'light', lamps: [{ azimuthDeg: 315, heightDeg: 20 }] }] },
  {
    name: 'Low raking light with shadows',
    steps: [
      { do: 'removeForm', order: 2 },
      { do: 'light', lamps: [{ azimuthDeg: 315, heightDeg: 10 }], castShadows: true },
    ],
  },
  {
    name: 'Across the strokes',
    steps: [
      { do: 'formRemoved', wavelengthMm: 8 },
      { do: 'lightAcross', strokeMm: 0.4, heightDeg: 20 },
    ],
  },
  faintLegendLook(3),
  {
    name: 'Soft light',
    steps: [
      { do: 'exaggerate', factor: 2 },
      { do: 'skyView', radiusMm: 2 },
    ],
  },
  { name: 'Light from everywhere', steps: [{ do: 'principalShading' }] },
  { name: 'Every scale in raking light', steps: [{ do: 'exaggeratedShading' }] },
  {
    name: 'Ridges and valleys',
    steps: [
      { do: 'edgeAwareDetail', sizeMm: 6, edgeMm: 0.4 },
      { do: 'curvature', scaleMm: 0.15, show: 'both' },
    ],
  },
] as const satisfies readonly LookInput[];

export type StandardLookName = (typeof looksToBeginWith)[number]['name'];

export const standardLooks: readonly LookInput[] = looksToBeginWith;
