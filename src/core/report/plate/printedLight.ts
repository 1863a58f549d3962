import {
  applyLook,
  type CardLanguage,
  type Lamp,
  type LookInput,
  light,
  lightDefaults,
  parseLook,
} from '../../read/index.ts';
import { fieldGrey, plateLamps } from '../figures/lit.ts';
import { captionWords, lampsCaption, lookCaption } from '../words/index.ts';
import type { DrawDots } from './litDots.ts';

/** How a relief on dots is drawn, and the sentence that says so. */
export interface PrintedLook {
  readonly draw: DrawDots;
  readonly says: string;
}

/** What is asked of the light in place of the plates' own. */
export interface PrintedLightOptions {
  readonly lamps?: readonly Lamp[] | undefined;
  /** Share of even light from the whole sky. */
  readonly soft?: number | undefined;
  readonly castShadows?: boolean | undefined;
}

/** Share of even light that fills what lamps leave black, where none is stated: such places would print as holes. */
const fill = 0.2;
const fillStep = { do: 'skyView', radiusMm: lightDefaults.softRadiusMm, over: 'mix', share: fill } as const;

/** Lamps that were asked for, filled and held below white, so that next to nothing is printed pure black or white; null where none were. */
export function printedLight(asked: PrintedLightOptions, language: CardLanguage): PrintedLook | null {
  const { lamps = plateLamps, soft = fill, castShadows = false } = asked;
  if (!asked.lamps && asked.soft === undefined && !castShadows) return null;
  const { softRadiusMm } = lightDefaults;
  const shown = { code: 'lamps', lamps, exaggeration: 1, castShadows, soft, softRadiusMm, view: 'asItIs' } as const;
  return {
    draw: (grid) => light(grid, lamps, { fieldGrey, soft, castShadows, holdHighlights: true }).grey,
    says: `${lampsCaption(shown, '', language)} ${captionWords[language].light.held}`,
  };
}

/** A look as it is printed: after each of its lamps the same fill, unless the look states its own soft light. All is said. */
export function printedLook(look: LookInput, language: CardLanguage): PrintedLook {
  const { name, steps } = parseLook(look);
  const isLamp = ({ do: does }: (typeof steps)[number]): boolean => does === 'light' || does === 'lightAcross';
  const filled = {
    name,
    steps: steps.flatMap((step) => (isLamp(step) && !('soft' in step) ? [step, fillStep] : [step])),
  };
  const held = steps.some(isLamp) ? ` ${captionWords[language].light.held}` : '';
  return {
    draw: (grid) => applyLook(grid, filled, { holdHighlights: true }).grey,
    says: `${lookCaption(filled, '', language)}${held}`,
  };
}
