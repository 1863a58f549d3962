import { type PreparedScan, prepareScan } from '../../core/pipeline.ts';
import { notDecided, ofOneSeal, placeFragments } from '../../core/read/index.ts';
import { fragmentsPlate, paintPlate, saysSimulated } from '../../core/report/index.ts';
import { standingWords } from '../../core/report/words/index.ts';
import { ScanError } from '../../core/scan/index.ts';
import { UsageError } from '../errors.ts';
import { scanInput } from '../files.ts';
import { statedLamp } from '../lighting.ts';
import { namedFiles, readingOptions, textOf, type Values } from '../options.ts';
import { planOutputs } from '../output/outputs.ts';
import { checkDots, printedAs, printingOptions, statedLanguage } from '../printing.ts';
import { watchOnTerminal } from '../progress.ts';
import { rasteriser } from '../rasterise.ts';
import { say } from '../say.ts';
import { laidOnFirst } from '../stacked.ts';
import type { Verb } from '../verb.ts';

export const fragments: Verb = {
  name: 'fragments',
  usage: 'REFERENCE FRAGMENT FRAGMENT… --out FILE',
  does: 'Fragments of one seal in their places: each fitted to one reference, on one plate for print; edges that meet are measured.',
  options: [
    { name: 'out', type: 'string', value: 'FILE', help: 'the plate, .png, .tif or .svg' },
    { name: 'from', type: 'string', value: 'AZIMUTH,HEIGHT', help: 'the lamp, degrees (two lamps where not stated)' },
    ...printingOptions.filter(({ name }) => !['shelfmark', 'print-height'].includes(name)),
    ...readingOptions.filter(({ name }) => name !== 'repeat'),
  ],
  async run(positionals, values) {
    if (positionals.length < 3)
      throw new UsageError('fragments takes a reference, a matrix or a whole impression, and at least two fragments.');
    const size = printedAs(values);
    const language = statedLanguage(values);
    const lamp = statedLamp(values);
    const outputs = planOutputs({ files: [size.out], inputs: [...positionals, ...namedFiles(values)] });
    const watch = watchOnTerminal();
    const [reference, ...others] = await prepareAll(positionals, values, watch);
    watch.done();
    checkDots([reference.face.detail], size);
    const { witnesses, standings, left } = laidOnFirst(reference, others);
    const fitted = ofOneSeal(witnesses.slice(1), standings);
    if (fitted.length < 2)
      throw new ScanError(
        'unsupported',
        `fewer than two fragments could be fitted to ${reference.scan.name}; none is shown.`,
      );
    const placed = placeFragments(reference.face, fitted, reference.face.relief.pitch);
    const plate = fragmentsPlate(reference.face, placed, {
      ...{ printScale: size.printScale, dpi: size.dpi, language, reference: reference.scan.name },
      undecided: notDecided(fitted, standings),
      ...(lamp && { lamps: [lamp] }),
      credit: textOf(values.credit),
      simulated: [reference, ...others].some(({ scan }) => scan.simulated === true || saysSimulated(scan.name)),
    });
    outputs.file(size.out, paintPlate(plate, size.format, await rasteriser()));
    await outputs.write();
    say(`${size.out}: ${plate.caption}`);
    for (const standing of standings.slice(1)) say(`  ${standing.name}: ${standingWords(standing)}.`);
    for (const name of left) say(`  ${name} could not be fitted to ${reference.scan.name}; it is not shown.`);
  },
};

async function prepareAll(
  paths: readonly string[],
  values: Values,
  watch: ReturnType<typeof watchOnTerminal>,
): Promise<PreparedScan[]> {
  const list: PreparedScan[] = [];
  for (const path of paths)
    list.push(await prepareScan(scanInput(path, values, list.length === 0 ? 'reference' : 'subject'), watch, list[0]));
  return list;
}
