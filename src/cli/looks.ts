import { faintLegendLook, type LookInput, parseLook, standardLooks } from '../core/read/index.ts';
import { UsageError } from './errors.ts';
import { readBytes } from './files.ts';
import type { OptionHelp } from './options.ts';

const shortName = (name: string): string => name.toLowerCase().replaceAll(' ', '-');
const names = standardLooks.map(({ name }) => shortName(name));

export const lookOption: OptionHelp = {
  name: 'look',
  type: 'string',
  value: 'NAME|FILE',
  help: `instead of one lamp: ${names.join(', ')}; or a saved look, a JSON file`,
};

/** The looks to begin with, the one for faint legends fitted to the letters' height. */
export const standardLooksFor = (letterMm: number): LookInput[] =>
  standardLooks.map((look) => (look.name === faintLegendLook(letterMm).name ? faintLegendLook(letterMm) : look));

/** A look by its name, or from a file; the one for faint legends is fitted to the letters' height where that is known. */
export function lookFrom(value: string, letterMm = 3): LookInput {
  const known = names.indexOf(shortName(value));
  if (known >= 0) return standardLooksFor(letterMm)[known];
  if (!value.toLowerCase().endsWith('.json'))
    throw new UsageError(`--look ${value}: choose one of ${names.join(', ')}, or give a JSON file.`);
  return lookIn(value);
}

function lookIn(path: string): LookInput {
  const bytes = readBytes(path);
  try {
    return parseLook(JSON.parse(new TextDecoder().decode(bytes)));
  } catch (error) {
    const why = error instanceof RangeError ? error.message : 'it is not JSON.';
    throw new UsageError(`--look ${path}: ${why}`);
  }
}
