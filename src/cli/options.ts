import { type ParseArgsConfig, parseArgs } from 'node:util';
import { type Kind, kinds, type Unit, units } from '../core/scan/index.ts';
import { UsageError } from './errors.ts';

export type Role = 'reference' | 'subject' | 'earlier' | 'later';

/** What was typed for a verb's options, by their names. */
export type Values = Record<string, string | boolean | undefined>;

/** The text of an option that takes one; undefined where it was not given. */
export const textOf = (value: Values[string]): string | undefined => (typeof value === 'string' ? value : undefined);

/** An option of the command line and the line that `--help` prints for it. */
export interface OptionHelp {
  readonly name: string;
  readonly type: 'string' | 'boolean';
  readonly value?: string;
  readonly help: string;
  /** May be given several times; the values are joined by commas. */
  readonly several?: true;
}

/** Options that every verb which reads scans has. */
export const readingOptions: readonly OptionHelp[] = [
  {
    name: 'unit',
    type: 'string',
    value: units.join('|'),
    help: 'unit of the coordinates; one value, or reference=…,subject=…',
  },
  {
    name: 'kind',
    type: 'string',
    value: 'matrix|mould|impression|cast',
    help: 'what the scan shows; beats the winding of its triangles',
  },
  { name: 'material', type: 'string', value: 'TEXT', help: 'wax, plaster, bronze, …: for the size test' },
  {
    name: 'scale-uncertainty',
    type: 'string',
    value: 'PERCENT',
    help: 'scale uncertainty of the scan, 1 σ (0.3 where not stated)',
  },
  { name: 'face-toward', type: 'string', value: 'x,y,z', help: 'direction in the file that the face looks toward' },
  { name: 'up', type: 'string', value: 'DEGREES', help: 'turn of the design, clockwise, from where it was put' },
  {
    name: 'mirrored',
    type: 'string',
    value: 'yes|no',
    help: 'the file is a mirror image, and is read mirrored back; as subject=yes for one of two',
  },
  { name: 'pixel-size', type: 'string', value: 'LENGTH', help: 'height maps: side of a pixel' },
  { name: 'height-step', type: 'string', value: 'LENGTH', help: 'height maps: height of one step of the pixel value' },
  {
    name: 'repeat',
    type: 'string',
    value: 'FILE',
    help: 'a second scan of the same object, from which its noise is measured',
  },
];

/** Of verbs that read many scans. */
export const manifestOption: OptionHelp = {
  name: 'manifest',
  type: 'string',
  value: 'FILE.csv',
  help: 'kind, unit, material and scale_uncertainty of each scan by its file, as ectype add takes it; beats the options',
};

export const helpOption: OptionHelp = { name: 'help', type: 'boolean', help: 'this text' };

/** Parses a verb's arguments; throws UsageError for an option that it does not have. */
export function parseOptions(args: readonly string[], options: readonly OptionHelp[]) {
  const config = Object.fromEntries(
    options.map(({ name, type, several }) => [name, { type, multiple: several === true }]),
  ) as NonNullable<ParseArgsConfig['options']>;
  try {
    const { values, positionals } = parseArgs({ args: [...args], options: config, allowPositionals: true });
    const joined = Object.entries(values).map(([name, value]) => [
      name,
      Array.isArray(value) ? value.join(',') : value,
    ]);
    return { values: Object.fromEntries(joined) as Values, positionals };
  } catch (error) {
    throw new UsageError(`${(error as Error).message.split('. ')[0]}; see --help.`);
  }
}

/** Options that name files to be read. */
// biome-ignore format: one list
const namingFiles = ['repeat', 'pairs', 'exclude', 'landmarks', 'calibration', 'look', 'fields', 'manifest', 'reading'] as const;

/** The files that a verb's options name; also names of looks, which are no files. */
export const namedFiles = (values: Values): string[] =>
  namingFiles.flatMap((name) => {
    const value = values[name];
    return typeof value === 'string'
      ? value.split(',').map((part) => part.replace(/^(reference|subject|earlier|later)=/, ''))
      : [];
  });

/** "mm", or "reference=mm,subject=cm": the value for one role. */
export function valueFor(value: string | boolean | undefined, role: Role): string | undefined {
  if (typeof value !== 'string') return undefined;
  const parts = value.split(',');
  if (!parts.every((part) => part.includes('='))) return value;
  const found = parts.find((part) => part.startsWith(`${role}=`));
  return found?.slice(role.length + 1);
}

export function unitFrom(value: string | undefined): Unit | undefined {
  return oneOf(value, units, '--unit');
}

export function kindFrom(value: string | undefined): Kind | undefined {
  return oneOf(value, kinds, '--kind');
}

export function oneOf<T extends string>(value: string | undefined, list: readonly T[], option: string): T | undefined {
  if (value === undefined) return undefined;
  if ((list as readonly string[]).includes(value)) return value as T;
  throw new UsageError(`${option} ${value}: choose one of ${list.join(', ')}.`);
}

/** A finite number, or UsageError. */
export function numberFrom(value: string | undefined, option: string, remedy = 'give a number'): number | undefined {
  if (value === undefined) return undefined;
  const number = Number(value);
  if (value.trim() === '' || !Number.isFinite(number)) throw new UsageError(`${option} ${value}: ${remedy}.`);
  return number;
}

/** `count` numbers separated by commas. */
export function numbersFrom(value: string | undefined, count: number, option: string): number[] | undefined {
  if (value === undefined) return undefined;
  const numbers = value.split(',').map((part) => numberFrom(part, option) as number);
  if (numbers.length !== count) throw new UsageError(`${option} ${value}: give ${count} numbers separated by commas.`);
  return numbers;
}
