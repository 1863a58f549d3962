import type { Band } from '../core/design/index.ts';
import type { HeightGrid } from '../core/geometry/index.ts';
import {
  applyLook,
  type CardLanguage,
  type Composite,
  type LitPicture,
  type LookInput,
  light,
  rankedLooks,
  type Strip,
  strokeContrast,
} from '../core/read/index.ts';
import { fieldGrey, type PlateFormat, plateFormats, plateLamps, type StripRow } from '../core/report/index.ts';
import { captionWords, lookNameWords, pictureWords } from '../core/report/words/index.ts';
import { UsageError } from './errors.ts';
import { statedLamp } from './lighting.ts';
import { lookFrom, standardLooksFor } from './looks.ts';
import { numberFrom, type OptionHelp, type Values } from './options.ts';

const text = (value: string | boolean | undefined): string | undefined =>
  typeof value === 'string' ? value : undefined;

/** How large a strip is drawn. */
export const sizeOptions: readonly OptionHelp[] = [
  {
    name: 'letter-height',
    type: 'string',
    value: 'LENGTH',
    help: 'height of the letters on the picture, as 120px or 10mm (120px where not stated)',
  },
  { name: 'print-scale', type: 'string', value: 'TIMES', help: 'instead: so many times natural size' },
  {
    name: 'dpi',
    type: 'string',
    value: 'DOTS',
    help: 'dots per inch (600 with a size in mm or a --print-scale, else 300)',
  },
  { name: 'credit', type: 'string', value: 'TEXT', help: 'printed under the strips: who owns objects and scans' },
];

export interface StripSize {
  readonly dpi: number;
  /** Dots to the letters' height. */
  readonly letterDots: number;
}

/** The size asked for, for letters of a height, mm. */
export function stripSize(values: Values, letterMm: number): StripSize {
  const asked = text(values['letter-height']);
  const scale = numberFrom(text(values['print-scale']), '--print-scale');
  if (asked !== undefined && scale !== undefined)
    throw new UsageError('--letter-height and --print-scale both say how large; leave one out.');
  const found = /^(\d+(?:\.\d+)?)(px|mm)$/.exec(asked ?? '120px');
  if (!found) throw new UsageError(`--letter-height ${asked}: give a number with its unit, such as 120px or 10mm.`);
  const inMm = scale !== undefined || found[2] === 'mm';
  const dpi = numberFrom(text(values.dpi), '--dpi') ?? (inMm ? 600 : 300);
  if (dpi < 50 || dpi > 2400) throw new UsageError('--dpi lies between 50 and 2400.');
  const perMm = dpi / 25.4;
  const letterDots =
    scale !== undefined ? scale * letterMm * perMm : found[2] === 'mm' ? Number(found[1]) * perMm : Number(found[1]);
  if (letterDots < 8 || letterDots > 2000)
    throw new UsageError(`letters ${Math.round(letterDots)} dots high cannot be drawn; state between 8 and 2000.`);
  return { dpi, letterDots };
}

export function stripFormat(out: string): PlateFormat {
  const ending = /\.(\w+)$/.exec(out)?.[1]?.toLowerCase();
  const format = plateFormats.find((each) => each === ending);
  if (!format) throw new UsageError(`${out}: a strip is a .png, .tif or .svg file.`);
  return format;
}

/** How strips are lit: as told, or by the looks that part strokes best. */
export interface StripLook {
  readonly name: string;
  readonly draw: (grid: HeightGrid) => LitPicture;
  /** How well it parts strokes from ground, where that chose the look. */
  readonly contrast?: number;
}

/**
 * As told by --look or --from; else the look of the best stroke contrast on the first strip, and the plain raking light after
 * it, each with its contrast.
 */
export function stripLooks(values: Values, strip: Strip, language: CardLanguage): StripLook[] {
  const { strip: w } = captionWords[language];
  const letterMm = letterHeight(strip.band);
  const named = text(values.look);
  if (named !== undefined) return [lookOf(lookFrom(named, letterMm), language)];
  const lamp = statedLamp(values);
  if (lamp) return [{ name: w.oneLamp, draw: (grid) => light(grid, [lamp], bare) }];
  const plain = (grid: HeightGrid): LitPicture => light(grid, plateLamps, bare);
  const [best] = rankedLooks(strip, standardLooksFor(letterMm));
  return [
    { ...lookOf(best.look, language), contrast: best.contrast },
    { name: w.plain, draw: plain, contrast: strokeContrast(strip, plain(strip.grid)) },
  ];
}

const bare = { emptyGrey: 60, fieldGrey };
const lookOf = (look: LookInput, language: CardLanguage): StripLook => ({
  name: `“${lookNameWords(look.name, language)}”`,
  draw: (grid) => applyLook(grid, look, { emptyGrey: 60 }),
});

/** A look that is not valid is refused before any scan is read. */
export function checkLook(values: Values): void {
  const named = text(values.look);
  if (named === undefined) statedLamp(values);
  else if (values.from !== undefined) throw new UsageError('--look brings its own light; leave out --from.');
  else lookFrom(named);
}

export const letterHeight = (band: Band): number => band.lettersInnerMm - band.lettersOuterMm;

/** Who gives most at each place of a composite, one grey each from dark to light, and the words that say which. */
export function contributorRow(composite: Extract<Composite, { refused: false }>, language: CardLanguage): StripRow {
  const { strip, contributor, names, leftOut } = composite;
  const used = names.flatMap((name, k) => (leftOut.some((each) => each.name === name) ? [] : [k]));
  const greys = new Map(used.map((k, j) => [k, Math.round(40 + (180 * j) / Math.max(1, used.length - 1))]));
  const grey = new Uint8ClampedArray(contributor.map((k) => greys.get(k) ?? 255));
  const parts = used.map((k) => ({ name: names[k], grey: greys.get(k) ?? 255 }));
  return { name: captionWords[language].composite.contributors(parts), strip, picture: { grey }, hours: true };
}

/** Which way an object is shown is said by the strip's own caption; a strip is never turned again. */
export const lookCaption = ({ shown }: LitPicture, language: CardLanguage): string => pictureWords(shown, '', language);
