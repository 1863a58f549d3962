import type { ScanRequirement } from '../../change/index.ts';
import { micrometres, percentWords } from './numbers.ts';

/** What was measured of a requirement, and what to do where it is not met or cannot be told. */
export interface RequirementWords {
  readonly says: string;
  readonly remedy: string | null;
}

/** A requirement of docs/scanning.md in words. */
export function requirementWords(requirement: ScanRequirement): RequirementWords {
  const { says, otherwise } = wordsOf(requirement);
  return { says, remedy: requirement.passes === true ? null : otherwise };
}

function wordsOf(requirement: ScanRequirement): { says: string; otherwise: string } {
  switch (requirement.code) {
    case 'unit':
      return {
        says: `the unit is ${requirement.unit}${requirement.passes ? '' : ', which is assumed from the size alone'}`,
        otherwise: 'ask who scanned it, and state --unit.',
      };
    case 'spacing':
      return {
        says: `a point every ${requirement.spacingMm.toFixed(3)} mm, narrow strokes ${requirement.strokeMm.toFixed(2)} mm wide: ${(requirement.strokeMm / requirement.spacingMm).toFixed(1)} points across`,
        otherwise: `scan with a point every ${requirement.neededMm.toFixed(3)} mm or finer: four across a narrow stroke.`,
      };
    case 'noise':
      return {
        says: `noise ${micrometres(requirement.noiseMm)} under a relief of ${requirement.reliefMm.toFixed(2)} mm`,
        otherwise: `bring it to ${micrometres(requirement.neededMm)} or less: more passes averaged, less gain, a quieter place; a repeat says whether the figure, an upper bound from one scan, is true.`,
      };
    case 'filled':
      return {
        says: `${percentWords(requirement.share)} of the face scanned, ${requirement.holes} holes`,
        otherwise:
          'add views tilted by 30 to 45 degrees from four sides, for walls and hollows that one view does not see.',
      };
    case 'bothSides':
      return {
        says: requirement.passes ? 'a closed body: both sides are there' : 'an open sheet: one side only',
        otherwise:
          'scan the back and the rim too and join them; the back tells bending of the piece from a change of its face, and which way the surface looks.',
      };
    case 'scaleCheck':
      return {
        says:
          requirement.percent === null
            ? 'scale uncertainty not stated'
            : `scale known to ${requirement.percent} %, ${requirement.neededPercent} % asked`,
        otherwise:
          'scan a gauge of certified length in the same session and settings, and state what it showed with --scale-uncertainty.',
      };
    case 'repeat':
      return {
        says: requirement.passes ? 'a second scan measures the noise' : 'no second scan of the same object',
        otherwise: 'lift the object, lay it anew, scan it again on the same day, and give the file as --repeat.',
      };
    case 'material':
      return {
        says: requirement.material === null ? 'material not stated' : `material ${requirement.material}`,
        otherwise:
          requirement.material === null
            ? 'state --material: light enters wax, and that changes what a scan means.'
            : 'light enters it: keep instrument, wavelength, exposure and angle the same on both dates; put no powder or spray on it; scan a plaster beside it once to see the difference.',
      };
  }
}
