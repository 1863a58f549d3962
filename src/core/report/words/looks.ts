import { type CardLanguage, exaggeratedDefaults, type Lamp, type LookShown, type LookStep } from '../../read/index.ts';
import { captionWords, printed } from './captions/index.ts';
import { lampWords } from './light.ts';

/** The look by its name, every step with its numbers, and which way the object is shown (`way`). */
export function lookCaption(
  { name, steps }: Pick<LookShown, 'name' | 'steps'>,
  way: string,
  language: CardLanguage = 'en',
): string {
  return `${lookNameWords(name, language)}: ${[...steps.map((step) => stepWords(step, language)), way].filter(Boolean).join('; ')}.`;
}

/** A look's name: of those to begin with in the caption's language, of a user's own as it was given. */
export function lookNameWords(name: string, language: CardLanguage): string {
  const known: Readonly<Record<string, string>> = captionWords[language].looks;
  return known[name] ?? name;
}

/** What a step did; every length and angle printed. */
function stepWords(step: LookStep, language: CardLanguage): string {
  const w = captionWords[language];
  const number = (value: number): string => printed(value, w);
  const lamps = lampsOf(step).map((lamp) => lampWords(lamp, language));
  const laid =
    'over' in step && (step.share < 1 || step.over !== 'mix')
      ? ` (${step.over === 'mix' ? '' : `${step.over}, `}${number(step.share)})`
      : '';
  return `${w.step(step, number, lamps.join(w.and))}${laid}`;
}

function lampsOf(step: LookStep): readonly Lamp[] {
  if (step.do === 'light') return step.lamps;
  return step.do === 'exaggeratedShading' ? [{ ...exaggeratedDefaults, ...step }.lamp] : [];
}
