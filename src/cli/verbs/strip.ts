import { type Band, findLegendBand } from '../../core/design/index.ts';
import type { HeightGrid } from '../../core/geometry/index.ts';
import { type PreparedScan, prepareScan } from '../../core/pipeline.ts';
import { applyLook, type LitPicture, light, type ReadableStrip, readableStrip } from '../../core/read/index.ts';
import { bandDoubtWords } from '../../core/report/words/index.ts';
import { ScanError } from '../../core/scan/index.ts';
import { UsageError } from '../errors.ts';
import { scanInput } from '../files.ts';
import { lookFrom, lookOption } from '../looks.ts';
import { namedFiles, numberFrom, numbersFrom, readingOptions } from '../options.ts';
import { planOutputs } from '../output/outputs.ts';
import { pngOf, underOneAnother } from '../pictures.ts';
import { watchOnTerminal } from '../progress.ts';
import { say } from '../say.ts';
import { compositeOf, contributorMap, lineOf, type Stack, stacked } from '../stacked.ts';
import type { Verb } from '../verb.ts';

type Values = Record<string, string | boolean | undefined>;
const text = (value: string | boolean | undefined): string | undefined =>
  typeof value === 'string' ? value : undefined;

export const strip: Verb = {
  name: 'strip',
  usage: 'SCAN… --out PNG',
  does: 'The legend as a straight strip, readable from left to right. Further scans are fitted to the first and their legends put under it, in register.',
  options: [
    { name: 'out', type: 'string', value: 'PNG', help: 'the picture; several strips stand in the order of the scans' },
    {
      name: 'composite',
      type: 'string',
      value: 'PNG',
      help: 'one strip put together from all, each place from the witness that keeps it best, over a map of who gave what',
    },
    {
      name: 'from',
      type: 'string',
      value: 'AZIMUTH,HEIGHT',
      help: 'the lamp, degrees, against the strip (315,25 where not stated)',
    },
    lookOption,
    {
      name: 'start',
      type: 'string',
      value: 'DEGREES',
      help: "where the strip begins, clockwise from 12 o'clock on the impression; where not stated at the cross, else at 12 o'clock",
    },
    {
      name: 'facing',
      type: 'string',
      value: 'inward|outward',
      help: 'feet of the letters toward the centre or toward the rim; where not stated, told from the letters',
    },
    ...readingOptions.filter(({ name }) => name !== 'repeat'),
  ],
  async run(positionals, values) {
    if (positionals.length === 0) throw new UsageError('strip takes at least one scan file.');
    const out = text(values.out);
    const composite = text(values.composite);
    if (!out && !composite) throw new UsageError('say where the picture goes: --out PNG or --composite PNG.');
    if (composite && positionals.length < 2) throw new UsageError('--composite takes at least two scans.');
    const draw = drawingOf(values);
    const unrolling = unrollingOf(values);
    const outputs = planOutputs({ files: [out, composite], inputs: [...positionals, ...namedFiles(values)] });
    const watch = watchOnTerminal();
    const [first, ...others] = await prepareAll(positionals, values);
    watch.done();
    const band = findLegendBand(first.face);
    if (!band)
      throw new ScanError('noFace', `${first.scan.name}: no legend band was found between border lines on this face.`);
    const readable = readableStrip(first.face.relief, band, unrolling);
    say(`${positionals[0]}: ${readable.caption}${bandWords(band, readable)}`);
    const { facing, startDeg } = readable;
    const letterMm = band.lettersInnerMm - band.lettersOuterMm;
    const pitchMm = Math.min(first.face.relief.pitch, letterMm / 48);
    const stack = stacked(first, others, band, { facing, startDeg, overlapMm, pitchMm });
    const pictures = stack.strips.map(({ strip }) => draw(strip.grid, band));
    if (out) outputs.file(out, pngOf(underOneAnother(pictures)));
    const put = composite ? drawComposite(stack, band, draw) : undefined;
    if (composite && put?.png) outputs.file(composite, put.png);
    await outputs.write();
    sayStack(stack, pictures[0].caption);
    if (put) say(put.words);
  },
};

/** So much of the beginning is shown again at the end, mm. */
const overlapMm = 5;

async function prepareAll(paths: readonly string[], values: Values): Promise<PreparedScan[]> {
  const list: PreparedScan[] = [];
  for (const path of paths)
    list.push(await prepareScan(scanInput(path, values, list.length === 0 ? 'reference' : 'subject'), {}, list[0]));
  return list;
}

function unrollingOf(values: Values) {
  const facing = text(values.facing);
  if (facing !== undefined && facing !== 'inward' && facing !== 'outward')
    throw new UsageError(`--facing ${facing}: choose inward or outward.`);
  const startDeg = numberFrom(text(values.start), '--start');
  return { facing, startDeg, startAtCross: startDeg === undefined, overlapMm } as const;
}

type Draw = (grid: HeightGrid, band: Band) => LitPicture;

function drawingOf(values: Values): Draw {
  const look = text(values.look);
  if (look === undefined) {
    const [azimuthDeg, heightDeg] = numbersFrom(text(values.from), 2, '--from') ?? [315, 25];
    if (heightDeg <= 0 || heightDeg > 90)
      throw new UsageError(`--from ${values.from}: the height lies above 0 and up to 90°.`);
    return (grid) => asStrip(light(grid, [{ azimuthDeg, heightDeg }], { emptyGrey: 60 }));
  }
  if (values.from !== undefined) throw new UsageError('--look brings its own light; leave out --from.');
  // Read now, so that a look that is not valid is refused before any scan is.
  lookFrom(look);
  return (grid, band) =>
    asStrip(applyLook(grid, lookFrom(look, band.lettersInnerMm - band.lettersOuterMm), { emptyGrey: 60 }));
}

/** Which way an object is shown is said by the strip's own caption; a strip is never turned again. */
const asStrip = (picture: LitPicture): LitPicture => ({
  ...picture,
  caption: picture.caption.replace('; shown as it is', ''),
});

function bandWords(band: Band, { letters, cross }: ReadableStrip): string {
  const parts = [` Band found with confidence ${band.confidence.toFixed(2)}.`, ...band.doubts.map(bandDoubtWords)];
  parts.push(cross ? `A cross is seen at ${cross.deg.toFixed(0)}°.` : 'No cross is seen.');
  if (!letters.decided) parts.push(letters.words);
  return parts.join(' ');
}

function sayStack({ strips, standings, left }: Stack, caption: string): void {
  say(`Drawn: ${caption}`);
  if (strips.length > 1)
    strips.forEach(({ name, filled }, k) => {
      say(`  ${k + 1}. ${name}: ${lineOf(standings[k])}; ${Math.round(100 * filled)} % of the strip has data.`);
    });
  for (const name of left) say(`  ${name} could not be laid on it; give it a strip of its own.`);
}

/** The composite over the map of who gave what, and what is said of it; no picture where it was refused. */
function drawComposite(stack: Stack, band: Band, draw: Draw): { readonly png?: Uint8Array; readonly words: string } {
  const composite = compositeOf(stack, band);
  if (composite.refused) return { words: `No composite: ${composite.reason}` };
  const picture = draw(composite.strip.grid, band);
  const map = contributorMap(composite);
  const png = pngOf(underOneAnother([{ ...picture, caption: `${composite.caption} ${picture.caption}` }, map]));
  return { png, words: `${composite.caption} ${map.caption}` };
}
