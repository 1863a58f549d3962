import type { HeightGrid } from '../core/geometry/index.ts';
import { type PreparedScan, prepareScan } from '../core/pipeline.ts';
import { type CardLanguage, cardLanguages } from '../core/read/index.ts';
import {
  type PlateFormat,
  type PlateSize,
  paintPlate,
  plateFormats,
  printedLook,
  printPlate,
  printScaleOf,
  saysSimulated,
} from '../core/report/index.ts';
import { mmPer } from '../core/scan/index.ts';
import { UsageError } from './errors.ts';
import { scanInput } from './files.ts';
import { statedLamp, statedSoft, statedView } from './lighting.ts';
import { lookFrom } from './looks.ts';
import { namedFiles, numberFrom, type OptionHelp, textOf, type Values } from './options.ts';
import { planOutputs } from './output/outputs.ts';
import { watchOnTerminal } from './progress.ts';
import { rasteriser } from './rasterise.ts';
import { say } from './say.ts';

/** Language of the words that are printed on a plate, a strip or a card. */
export const wordsOption: OptionHelp = {
  name: 'words',
  type: 'string',
  value: cardLanguages.join('|'),
  help: 'language of the printed words (en)',
};

/** `--words`; English where it is not stated. */
export function statedLanguage(values: Values): CardLanguage {
  const asked = textOf(values.words) ?? 'en';
  const found = cardLanguages.find((each) => each === asked);
  if (!found) throw new UsageError(`--words ${asked}: choose one of ${cardLanguages.join(', ')}.`);
  return found;
}

/** Options of a picture that is to be printed at a stated scale. */
export const printingOptions: readonly OptionHelp[] = [
  {
    name: 'print-scale',
    type: 'string',
    value: 'TIMES',
    help: 'a plate for print, so many times natural size, with scale bar and words; several scans stand side by side',
  },
  {
    name: 'print-height',
    type: 'string',
    value: 'LENGTH',
    help: 'instead: the tallest object so high on the plate, as 90mm or 1500px',
  },
  { name: 'dpi', type: 'string', value: 'DOTS', help: 'dots per inch of the plate (600 where not stated)' },
  { name: 'shelfmark', type: 'string', value: 'TEXT;TEXT;…', help: 'printed under each object of the plate, in order' },
  { name: 'credit', type: 'string', value: 'TEXT', help: 'printed under the plate: who owns objects and scans' },
  wordsOption,
];

const onlyForPrint = ['dpi', 'shelfmark', 'credit', 'words'];

/** Whether a plate is asked for. */
export function isPrinted(values: Values): boolean {
  if (values['print-scale'] !== undefined || values['print-height'] !== undefined) return true;
  const lone = onlyForPrint.find((name) => values[name] !== undefined);
  if (lone)
    throw new UsageError(
      `--${lone} belongs to a plate for print: state its --print-scale, 1 for natural size, or its --print-height.`,
    );
  return false;
}

/** All scans on one plate at one scale, as PNG, TIFF or SVG by the name of `--out`. */
export async function printScans(paths: readonly string[], values: Values): Promise<void> {
  if (paths.length === 0) throw new UsageError('light takes a scan file.');
  if (values.sweep !== undefined)
    throw new UsageError(
      'a sweep is a film, and a plate is one picture: leave out --sweep, and state one lamp --from.',
    );
  const named = textOf(values.look);
  const look = named === undefined ? undefined : lookFrom(named);
  const lit = ['from', 'soft', 'shadows'].find((name) => values[name] !== undefined);
  if (look && lit) throw new UsageError(`--look brings its own light; leave out --${lit}.`);
  const soft = statedSoft(values);
  const { out, format, dpi, ...stated } = printedAs(values);
  const size = printHeight(values, dpi) ?? stated;
  const language = statedLanguage(values);
  const view = statedView(values);
  const lamp = statedLamp(values);
  const outputs = planOutputs({ files: [out], inputs: [...paths, ...namedFiles(values)] });
  const watch = watchOnTerminal();
  const scans: PreparedScan[] = [];
  for (const path of paths) scans.push(await prepareScan(scanInput(path, values), watch));
  watch.done();
  const reliefs = scans.map(({ face }) => face.detail);
  const printScale = printScaleOf(size, reliefs);
  checkDots(reliefs, { printScale, dpi });
  const shelfmarks = (textOf(values.shelfmark) ?? '').split(';').map((mark) => mark.trim());
  const plate = printPlate(
    scans.map(({ face, kind }, k) => ({
      face,
      kind,
      // Unstated, one object is shown as it is, and several all in the impression's sense.
      view: view ?? (scans.length > 1 && face.sense === 'intaglio' ? 'turnedOver' : 'asItIs'),
      shelfmark: shelfmarks[k] || undefined,
    })),
    {
      printScale,
      dpi,
      ...{ lamps: lamp && [lamp], soft, castShadows: values.shadows === true },
      look: look && printedLook(look, language),
      credit: textOf(values.credit),
      language,
      simulated: scans.some(({ scan }) => scan.simulated === true || saysSimulated(scan.name)),
    },
  );
  outputs.file(out, paintPlate(plate, format, await rasteriser()));
  await outputs.write();
  say(`${out}: ${plate.caption}`);
}

/** `--print-height`; null where a scale is stated. */
function printHeight(values: Values, dpi: number): PlateSize | null {
  const asked = textOf(values['print-height']);
  if (asked === undefined) return null;
  if (values['print-scale'] !== undefined)
    throw new UsageError('--print-scale and --print-height both say how large; leave one out.');
  const found = /^(\d+(?:\.\d+)?)(px|mm)$/.exec(asked);
  const heightMm = found ? Number(found[1]) * (found[2] === 'px' ? mmPer.inch / dpi : 1) : 0;
  if (heightMm < 1)
    throw new UsageError(`--print-height ${asked}: give a number with its unit, such as 1500px or 90mm.`);
  return { heightMm };
}

/** Where a plate goes and how large it is printed. Throws UsageError. */
export function printedAs(values: Values): { out: string; format: PlateFormat; printScale: number; dpi: number } {
  const out = textOf(values.out);
  if (!out) throw new UsageError('say where the plate goes: --out FILE.png, FILE.tif or FILE.svg.');
  const printScale = within(values, 'print-scale', 1, 0.05, 50);
  return { out, format: formatOf(out), printScale, dpi: within(values, 'dpi', 600, 50, 2400) };
}

const mostDots = 120e6;

/** Refuses a plate that no program opens. */
export function checkDots(
  reliefs: readonly HeightGrid[],
  { printScale, dpi }: { printScale: number; dpi: number },
): void {
  const dots = reliefs.reduce((sum, relief) => sum + dotsOf(relief, (dpi / mmPer.inch) * printScale), 0);
  if (dots > mostDots)
    throw new UsageError(
      `the plate would have ${Math.round(dots / 1e6)} million dots; state a smaller --dpi or --print-scale.`,
    );
}

/** Dots of a relief's whole window: no picture of it has more. */
const dotsOf = ({ width, height, pitch }: HeightGrid, dotsPerMm: number): number =>
  width * height * (pitch * dotsPerMm) ** 2;

function formatOf(out: string): PlateFormat {
  const ending = /\.(\w+)$/.exec(out)?.[1]?.toLowerCase();
  const format = plateFormats.find((each) => each === ending);
  if (!format) throw new UsageError(`--out ${out}: a plate is a .png, .tif or .svg file.`);
  return format;
}

function within(values: Values, name: string, usual: number, least: number, most: number): number {
  const value = numberFrom(textOf(values[name]), `--${name}`) ?? usual;
  if (value < least || value > most) throw new UsageError(`--${name} lies between ${least} and ${most}.`);
  return value;
}
