import { acrossDefaults, exaggeratedDefaults, type LookShown, type LookStep } from '../../read/index.ts';
import { lampWords } from './light.ts';

/** The look by its name, every step with its numbers, and which way the object is shown (`way`). */
export function lookCaption({ name, steps }: LookShown, way: string): string {
  return `${name}: ${[...steps.map(stepWords), way].filter(Boolean).join('; ')}.`;
}

/** What a step did; every length and angle printed. */
function stepWords(step: LookStep): string {
  const laid = 'over' in step && (step.share < 1 || step.over !== 'mix') ? ` (${step.over}, ${step.share})` : '';
  return `${plainWords(step)}${laid}`;
}

function plainWords(step: LookStep): string {
  switch (step.do) {
    case 'fromStart':
      return 'again from the relief as scanned';
    case 'removeForm':
      return step.order === 1 ? 'plane removed' : 'second-order form removed';
    case 'formRemoved':
      return `form above ${step.wavelengthMm} mm removed (rings at cracks)`;
    case 'smooth':
      return `smoothed below ${step.wavelengthMm} mm`;
    case 'bandPass':
      return `band ${step.fromMm} to ${step.toMm} mm kept (rings at cracks)`;
    case 'edgeAwareBase':
      return `smoothed at ${step.sizeMm} mm except at edges over ${step.edgeMm} mm`;
    case 'edgeAwareDetail':
      return `detail finer than ${step.sizeMm} mm, edges over ${step.edgeMm} mm left out`;
    case 'localHeight':
      return `local height over ${step.meanMm} mm (rings at cracks)`;
    case 'exaggerate':
      return `heights × ${step.factor}`;
    case 'light':
      return `light from ${step.lamps.map(lampWords).join(' and ')}${step.castShadows ? ', cast shadows' : ''}`;
    case 'lightAcross': {
      const { strokeMm, middleAzimuthDeg, heightDeg } = { ...acrossDefaults, ...step };
      return `lit across strokes of ${strokeMm} mm from ${middleAzimuthDeg}° ± 90°, height ${heightDeg}°`;
    }
    case 'skyView':
      return `sky-view factor within ${step.radiusMm} mm`;
    case 'openness':
      return `openness within ${step.radiusMm} mm`;
    case 'curvature':
      return `${step.show === 'both' ? 'ridges and valleys' : step.show} at ${step.scaleMm} mm (rings at cracks)`;
    case 'heights':
      return 'heights as grey';
    case 'principalShading':
      return `principal component ${step.component} of 16 shadings, height ${step.heightDeg ?? 35}°`;
    case 'exaggeratedShading': {
      const { lamp, finestMm, scales } = { ...exaggeratedDefaults, ...step };
      return `exaggerated shading, ${scales} scales from ${finestMm} mm, ${lampWords(lamp)} (soft border at cracks)`;
    }
  }
}
