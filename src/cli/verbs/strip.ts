import { type Band, findLegendBands } from '../../core/design/index.ts';
import { type PreparedScan, prepareScan } from '../../core/pipeline.ts';
import {
  type Among,
  type CardLanguage,
  type Laid,
  type ReadableStrip,
  readableStrip,
  type StackedStrip,
} from '../../core/read/index.ts';
import { paintPlate, type StripRow, saysSimulated, stripPlate, timesNatural } from '../../core/report/index.ts';
import {
  bandWords,
  captionWords,
  compositeWords,
  facingDoubtWords,
  letterSenseWords,
  printed,
  standingWords,
  stripWords,
} from '../../core/report/words/index.ts';
import { ScanError } from '../../core/scan/index.ts';
import { UsageError } from '../errors.ts';
import { scanInput } from '../files.ts';
import { lookOption } from '../looks.ts';
import { namedFiles, numberFrom, readingOptions, type Values } from '../options.ts';
import { type Outputs, planOutputs } from '../output/outputs.ts';
import { statedLanguage, wordsOption } from '../printing.ts';
import { watchOnTerminal } from '../progress.ts';
import { rasteriser } from '../rasterise.ts';
import { say } from '../say.ts';
import { among, compositeOf, laidOnFirst, stackOf } from '../stacked.ts';
import { placesTable } from '../stripPlaces.ts';
import {
  checkLook,
  contributorRow,
  letterHeight,
  lookCaption,
  type StripLook,
  sizeOptions,
  stripFormat,
  stripLooks,
  stripSize,
} from '../stripPlates.ts';
import type { Verb } from '../verb.ts';

const text = (value: string | boolean | undefined): string | undefined =>
  typeof value === 'string' ? value : undefined;

export const strip: Verb = {
  name: 'strip',
  usage: 'SCAN… --out FILE',
  does: 'The legend as a straight strip, readable from left to right, ring by ring. Further scans are fitted to the first and their legends put under it, in register.',
  options: [
    {
      name: 'out',
      type: 'string',
      value: 'FILE',
      help: 'the picture, .png, .tif or .svg, with hours, degrees and a scale bar; strips stand in the order of the scans',
    },
    {
      name: 'composite',
      type: 'string',
      value: 'FILE',
      help: 'one strip put together from all of one state, each place from the witness that keeps it best, over a map of who gave what',
    },
    {
      name: 'places',
      type: 'string',
      value: 'FILE',
      help: "the places of the first scan's strips as a table, .csv, from the clearest to the most doubtful, each with the look that serves it best",
    },
    ...sizeOptions,
    {
      name: 'from',
      type: 'string',
      value: 'AZIMUTH,HEIGHT',
      help: 'the lamp, degrees, against the strip; where neither it nor a look is stated, the look that parts strokes best and the plain one',
    },
    lookOption,
    {
      name: 'start',
      type: 'string',
      value: 'DEGREES',
      help: "where the strip begins, clockwise from 12 o'clock on the impression; where not stated at the cross, on a broken object where the legend is whole, else at 12 o'clock",
    },
    {
      name: 'facing',
      type: 'string',
      value: 'inward|outward',
      help: 'feet of the letters toward the centre or toward the rim; where not stated, told from the letters, arc by arc',
    },
    wordsOption,
    ...readingOptions.filter(({ name }) => name !== 'repeat'),
  ],
  async run(positionals, values) {
    if (positionals.length === 0) throw new UsageError('strip takes at least one scan file.');
    const out = text(values.out);
    const composite = text(values.composite);
    const places = text(values.places);
    if (!out && !composite && !places)
      throw new UsageError('say what is made: --out FILE, --composite FILE or --places FILE.');
    if (places && !places.toLowerCase().endsWith('.csv'))
      throw new UsageError(`${places}: the places are a .csv file.`);
    if (composite && positionals.length < 2) throw new UsageError('--composite takes at least two scans.');
    for (const path of [out, composite]) if (path) stripFormat(path);
    checkLook(values);
    stripSize(values, 3);
    const unrolling = unrollingOf(values);
    const language = statedLanguage(values);
    const outputs = planOutputs({ files: [out, composite, places], inputs: [...positionals, ...namedFiles(values)] });
    const watch = watchOnTerminal();
    const [first, ...others] = await prepareAll(positionals, values);
    watch.done();
    const bands = findLegendBands(first.face);
    if (bands.length === 0)
      throw new ScanError('noFace', `${first.scan.name}: no legend band was found between border lines on this face.`);
    const laid = laidOnFirst(first, others);
    const rings = bands.map((band) => ringOf(first, laid, band, unrolling, values));
    for (const ring of rings) say(`${positionals[0]}: ${stripWords(ring.readable, language)} ${ring.sure}`);
    const under = { words: captionOf([first, ...others], values), language };
    const rows = rings.flatMap((ring) => rowsOf(ring, language));
    if (out) await addPlate(outputs, out, rows, rings[0], under);
    const known = composite ? among(others, laid) : null;
    const put = known ? rings.map((ring) => composedRows(ring, laid, known, language)) : [];
    const composed = put.flatMap(({ rows }) => rows);
    const told = { words: [...put.map(({ words }) => words), under.words].join(' '), language };
    if (composite && composed.length > 0) await addPlate(outputs, composite, composed, rings[0], told);
    const strips = rings.map(({ readable }) => readable.strip);
    if (places) outputs.file(places, placesTable(strips, language));
    await outputs.write();
    sayLaid(laid, rings[0], language);
    for (const { words } of put) say(words);
  },
};

/** So much of the beginning is shown again at the end, mm. */
const overlapMm = 5;

interface Ring {
  readonly band: Band;
  readonly readable: ReadableStrip;
  readonly strips: readonly StackedStrip[];
  readonly looks: readonly StripLook[];
  /** How sure the band is, the cross, how the letters stand. */
  readonly sure: string;
  readonly dpi: number;
}

/** One ring of the first scan, unrolled over all that are laid on it, a dot a cell. */
function ringOf(
  first: PreparedScan,
  laid: Laid,
  band: Band,
  unrolling: ReturnType<typeof unrollingOf>,
  values: Values,
): Ring {
  const readable = readableStrip(first.face.relief, band, unrolling);
  const language = statedLanguage(values);
  const { facing, arcs, startDeg } = readable;
  const { dpi, letterDots } = stripSize(values, letterHeight(band));
  const strips = stackOf(first, laid, band, {
    facing,
    arcs,
    startDeg,
    overlapMm,
    pitchMm: letterHeight(band) / letterDots,
  });
  return {
    band,
    readable,
    strips,
    dpi,
    looks: stripLooks(values, readable.strip, language),
    sure: sureWords(readable, language),
  };
}

function rowsOf({ strips, looks }: Ring, language: CardLanguage): StripRow[] {
  const w = captionWords[language];
  return strips.flatMap(({ name, strip }, k) =>
    (k === 0 ? looks : looks.slice(0, 1)).map((look): StripRow => {
      const contrast =
        k === 0 && look.contrast !== undefined
          ? `, ${w.strip.strokeContrast(printed(look.contrast.toFixed(1), w))}`
          : '';
      return { name, note: `${look.name}${contrast}`, strip, picture: look.draw(strip.grid), hours: true };
    }),
  );
}

/** The composite over the map of who gave what, and what is said of it; no rows where it was refused. */
function composedRows(
  { strips, looks, band }: Ring,
  laid: Laid,
  known: Among,
  language: CardLanguage,
): { rows: StripRow[]; words: string } {
  const composite = compositeOf(strips, laid, known, band);
  const words = compositeWords(composite, language);
  if (composite.refused) return { rows: [], words };
  const picture = looks[0].draw(composite.strip.grid);
  const row = {
    name: captionWords[language].strip.composite,
    note: looks[0].name,
    strip: composite.strip,
    picture,
    hours: true,
  };
  return { rows: [row, contributorRow(composite, language)], words };
}

async function addPlate(
  outputs: Outputs,
  path: string,
  rows: readonly StripRow[],
  ring: Ring,
  { words: caption, language }: { readonly words: string; readonly language: CardLanguage },
): Promise<void> {
  const { pitch } = rows[0].strip.grid;
  const size = captionWords[language].atDpi(timesNatural(25.4 / ring.dpi / pitch, language), ring.dpi);
  const drawn = ring.looks.map(({ draw }) => lookCaption(draw(ring.strips[0].strip.grid), language)).join(' ');
  const words = `${stripWords(ring.readable, language)} ${ring.sure} ${drawn} ${size} ${caption}`.trim();
  const plate = stripPlate(rows, { dpi: ring.dpi, caption: words });
  outputs.file(path, paintPlate(plate, stripFormat(path), await rasteriser()));
}

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

function captionOf(scans: readonly PreparedScan[], values: Values): string {
  const simulated = scans.some(({ scan }) => scan.simulated === true || saysSimulated(scan.name));
  const credit = text(values.credit);
  return [
    simulated ? captionWords[statedLanguage(values)].simulated.several : '',
    credit ? `${credit.replace(/\.$/, '')}.` : '',
  ]
    .filter(Boolean)
    .join(' ');
}

function sureWords(
  { strip: { band }, letters, arcs, facingDoubts, cross, startsAt }: ReadableStrip,
  language: CardLanguage,
): string {
  const { strip: w } = captionWords[language];
  const parts = [bandWords(band, Math.max(...letters.likeness), language)];
  parts.push(cross ? w.cross(cross.deg.toFixed(0)) : w.noCross);
  if (startsAt === 'whole') parts.push(w.startsWhole);
  if (arcs.length === 1 && !letters.decided) parts.push(letterSenseWords(letters, language));
  if (facingDoubts.length > 0) parts.push(facingDoubtWords(facingDoubts, language));
  return parts.join(' ');
}

function sayLaid({ standings, left }: Laid, { strips, looks }: Ring, language: CardLanguage): void {
  say(`Drawn: ${lookCaption(looks[0].draw(strips[0].strip.grid), language)}`);
  if (strips.length > 1)
    strips.forEach(({ name, filled }, k) => {
      const line = standings[k].isReference ? 'the strip the others are laid under' : standingWords(standings[k]);
      say(`  ${k + 1}. ${name}: ${line}; ${Math.round(100 * filled)} % of the strip has data.`);
    });
  for (const name of left) say(`  ${name} could not be laid on it; give it a strip of its own.`);
}
