import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { alignRelief, fitFaces } from '../../core/fit/index.ts';
import type { HeightGrid } from '../../core/geometry/index.ts';
import { type PreparedScan, prepareScan } from '../../core/pipeline.ts';
import { findLegendBand, type LitPicture, light, unroll } from '../../core/read/index.ts';
import { ScanError } from '../../core/scan/index.ts';
import { UsageError } from '../errors.ts';
import { scanInput } from '../files.ts';
import { numberFrom, numbersFrom, readingOptions } from '../options.ts';
import { watchOnTerminal } from '../progress.ts';
import type { Verb } from '../verb.ts';
import { pngOf } from './light.ts';

type Values = Record<string, string | boolean | undefined>;
const text = (value: string | boolean | undefined): string | undefined =>
  typeof value === 'string' ? value : undefined;

export const strip: Verb = {
  name: 'strip',
  usage: 'SCAN… --out PNG',
  does: 'The legend as a straight strip, readable from left to right; further scans are fitted to the first and put under it.',
  options: [
    { name: 'out', type: 'string', value: 'PNG', help: 'the picture' },
    {
      name: 'from',
      type: 'string',
      value: 'AZIMUTH,HEIGHT',
      help: 'the lamp, degrees, against the strip (315,25 where not stated)',
    },
    {
      name: 'start',
      type: 'string',
      value: 'DEGREES',
      help: "where the strip begins, clockwise from 12 o'clock on the impression",
    },
    {
      name: 'facing',
      type: 'string',
      value: 'inward|outward',
      help: 'feet of the letters toward the centre or toward the rim',
    },
    ...readingOptions,
  ],
  async run(positionals, values) {
    if (positionals.length === 0) throw new UsageError('strip takes at least one scan file.');
    const out = text(values.out);
    if (!out) throw new UsageError('say where the picture goes: --out PNG.');
    const watch = watchOnTerminal();
    const [first, ...others] = await prepareAll(positionals, values);
    watch.done();
    const band = findLegendBand(first.face);
    if (!band)
      throw new ScanError('noFace', `${first.scan.name}: no legend band was found between border lines on this face.`);
    const reliefs = [first.face.detail, ...others.map((other) => fittedRelief(first, other))];
    const pictures = reliefs.map((relief) => litStrip(unroll(relief, band, unrolling(values)).grid, values));
    mkdirSync(dirname(out), { recursive: true });
    writeFileSync(out, pngOf(underOneAnother(pictures)));
    const doubts = band.doubts.length > 0 ? ` Doubts: ${band.doubts.join(' ')}` : '';
    process.stdout.write(
      `${positionals.join(', ')}: ${pictures[0].caption}; band found with confidence ${band.confidence.toFixed(2)}.${doubts}\n`,
    );
  },
};

async function prepareAll(paths: readonly string[], values: Values): Promise<PreparedScan[]> {
  const list: PreparedScan[] = [];
  for (const path of paths)
    list.push(await prepareScan(scanInput(path, values, list.length === 0 ? 'reference' : 'subject'), {}, list[0]));
  return list;
}

/** A further scan's detail on the first one's face plane, in the first one's sense. */
function fittedRelief(first: PreparedScan, other: PreparedScan): HeightGrid {
  const fit = fitFaces({ mesh: first.scan.mesh, face: first.face }, { mesh: other.scan.mesh, face: other.face });
  if (!fit.found)
    throw new UsageError(`${other.scan.name} could not be laid on ${first.scan.name}; give it a strip of its own.`);
  const model = fit.models.find(({ model }) => model === fit.chosen) ?? fit.models[1];
  return alignRelief(first.face, other.face, model).subject;
}

function unrolling(values: Values) {
  const facing = text(values.facing) ?? 'inward';
  if (facing !== 'inward' && facing !== 'outward')
    throw new UsageError(`--facing ${facing}: choose inward or outward.`);
  return { facing, startDeg: numberFrom(text(values.start), '--start') ?? 0, overlapMm: 5 } as const;
}

function litStrip(grid: HeightGrid, values: Values): LitPicture {
  const [azimuthDeg, heightDeg] = numbersFrom(text(values.from), 2, '--from') ?? [315, 25];
  return light(grid, [{ azimuthDeg, heightDeg }], { emptyGrey: 60 });
}

/** Strips of one width, one under another with a narrow gap. */
function underOneAnother(pictures: readonly LitPicture[]): LitPicture {
  const gap = pictures.length > 1 ? 6 : 0;
  const width = Math.max(...pictures.map((picture) => picture.width));
  const height = pictures.reduce((sum, picture) => sum + picture.height + gap, -gap);
  const grey = new Uint8ClampedArray(width * height).fill(255);
  let top = 0;
  for (const picture of pictures) {
    for (let row = 0; row < picture.height; row++)
      grey.set(picture.grey.subarray(row * picture.width, (row + 1) * picture.width), (top + row) * width);
    top += picture.height + gap;
  }
  return { width, height, grey, caption: pictures[0].caption };
}
