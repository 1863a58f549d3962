import { findLegendBand } from '../../core/design/index.ts';
import { sealOrPiece } from '../../core/face/index.ts';
import type { Watch } from '../../core/geometry/index.ts';
import { type PreparedScan, prepareScan, type ScanInput } from '../../core/pipeline.ts';
import {
  betweenFaces,
  type Card,
  type CardLanguage,
  type CardScan,
  cardFieldNames,
  cardJsonLd,
  cardManifest,
  cardOfFields,
  cardsCsv,
  cardTei,
  fieldFaults,
  legendOf,
  type ManifestOptions,
  type ManifestPlate,
  manifestFault,
  parseCard,
  type Transcription,
} from '../../core/read/index.ts';
import { fieldFaultWords, manifestFaultWords } from '../../core/report/words/index.ts';
import { ScanError, uncapital } from '../../core/scan/index.ts';
import { facePlate, legendPlate } from '../cardPlates.ts';
import { UsageError } from '../errors.ts';
import { readJson, scanInput } from '../files.ts';
import { namedFiles, numberFrom, type OptionHelp, readingOptions, type Values } from '../options.ts';
import type { Content } from '../output/filesList.ts';
import { planOutputs } from '../output/outputs.ts';
import { statedLanguage, wordsOption } from '../printing.ts';
import { watchOnTerminal } from '../progress.ts';
import { say } from '../say.ts';
import { readTei } from '../tei.ts';
import type { Verb } from '../verb.ts';

const text = (value: string | boolean | undefined): string | undefined =>
  typeof value === 'string' ? value : undefined;

const cardOptions: readonly OptionHelp[] = [
  {
    name: 'out',
    type: 'string',
    value: 'DIR',
    help: 'folder for card.json, card.jsonld, card.xml (TEI), card.csv and the plates',
  },
  {
    name: 'fields',
    type: 'string',
    value: 'FILE',
    help: `JSON object of texts: legend, language, ${cardFieldNames.slice(0, 9).join(', ')}, … (docs/read.md names all)`,
  },
  { name: 'shelfmark', type: 'string', value: 'TEXT', help: 'goes before that of --fields, as do the next three' },
  { name: 'repository', type: 'string', value: 'TEXT', help: 'who keeps the object' },
  { name: 'legend', type: 'string', value: 'TEXT', help: 'as it is printed, with the marks of the Leiden conventions' },
  {
    name: 'both-sides',
    type: 'boolean',
    help: 'the one scan holds both sides: the other is looked for opposite, and turn, offset and thickness are measured',
  },
  { name: 'reading', type: 'string', value: 'FILE.xml', help: 'the legend from a transcription saved as TEI' },
  { name: 'language', type: 'string', value: 'CODE', help: 'language of the legend (la where not stated)' },
  wordsOption,
  {
    name: 'base',
    type: 'string',
    value: 'URL',
    help: 'address at which the folder will lie, with a slash at its end: a IIIF manifest is written as well',
  },
  {
    name: 'licence',
    type: 'string',
    value: 'URL',
    help: 'of the manifest: an address of creativecommons.org or rightsstatements.org',
  },
  { name: 'dpi', type: 'string', value: 'DOTS', help: 'dots per inch of the plates at natural size (600)' },
];

export const card: Verb = {
  name: 'card',
  usage: 'SCAN [OTHER-SIDE] --out DIR',
  does: 'The catalogue card as JSON-LD, TEI and CSV, with plates of the face and of its legend; what nobody states is left open. A second scan is the other side of the same object.',
  options: [...cardOptions, ...readingOptions.filter(({ name }) => name !== 'repeat')],
  async run(positionals, values) {
    if (positionals.length < 1 || positionals.length > 2)
      throw new UsageError('card takes one scan file, or one of each side.');
    if (values['both-sides'] && positionals.length > 1)
      throw new UsageError('--both-sides is for one scan that holds both; leave it out, or the second scan.');
    const out = text(values.out);
    if (!out) throw new UsageError('say where the card goes: --out DIR.');
    const stated = statedFields(values);
    const reading = statedReading(values, stated);
    const words = statedLanguage(values);
    const manifest = manifestOptions(values);
    const dpi = numberFrom(text(values.dpi), '--dpi') ?? 600;
    if (dpi < 50 || dpi > 2400) throw new UsageError('--dpi lies between 50 and 2400.');
    const outputs = planOutputs({ folder: out, inputs: [...positionals, ...namedFiles(values)] });
    const watch = watchOnTerminal();
    const scans: PreparedScan[] = [];
    for (const path of positionals) scans.push(await prepareScan(scanInput(path, values), watch));
    if (values['both-sides']) scans.push(await oppositeOf(scans[0], scanInput(positionals[0], values), watch));
    watch.done();
    const made = cardOf(scans, stated, reading);
    const { files, plates } = await platesOf(scans, made, { dpi, language: words });
    addTexts(files, made, words);
    if (manifest) files.set('manifest.json', manifestOf(made, plates, manifest));
    outputs.run(files);
    await outputs.write();
    say(`${out}: ${[...files.keys()].join(', ')}.`);
  },
};

/** --fields, and over them what the options say. */
function statedFields(values: Values): Record<string, string> {
  const path = text(values.fields);
  const read = path === undefined ? {} : readJson(path, '--fields');
  if (read === null || typeof read !== 'object' || Array.isArray(read))
    throw new UsageError('--fields names a JSON object of texts.');
  const known = new Set<string>([...cardFieldNames, 'legend', 'language']);
  const fields: Record<string, string> = {};
  for (const [name, value] of Object.entries(read)) {
    if (!known.has(name)) throw new UsageError(`--fields: there is no field "${name}".`);
    if (typeof value !== 'string' && typeof value !== 'number')
      throw new UsageError(`--fields: "${name}" is a text or a number.`);
    fields[name] = String(value);
  }
  for (const name of ['shelfmark', 'repository', 'legend', 'language']) {
    const value = text(values[name]);
    if (value !== undefined) fields[name] = value;
  }
  return fields;
}

/** Throws UsageError with the first fault of the card and its field. */
function cardOf(
  [first, other]: readonly PreparedScan[],
  fields: Record<string, string>,
  reading: Transcription | undefined,
): Card {
  const { legend, language, ...stated } = fields;
  const second = other ? { ...otherSide(other), ...lyingTo(first, other) } : {};
  const read = reading ?? (legend === undefined ? undefined : legendFrom(legend, language));
  const made = cardOfFields({ ...second, ...stated }, cardScan(first), read);
  const [fault] = fieldFaults(made);
  if (fault) {
    const { field, words } = fieldFaultWords(fault);
    throw new UsageError(`the card is not valid at ${field}: ${words} ${whereToState(field)}`);
  }
  return parseCard(made);
}

const whereToState = (field: string): string =>
  ['shelfmark', 'repository', 'legend', 'language'].includes(field)
    ? `State it with --${field}, or in the file of --fields.`
    : 'State it in the file of --fields.';

/** The transcription of `--reading`; with a legend of `--legend` or `--fields` beside it nobody knows which holds. */
function statedReading(values: Values, { legend, language }: Record<string, string>): Transcription | undefined {
  const path = text(values.reading);
  if (path === undefined) return undefined;
  if (legend !== undefined || language !== undefined)
    throw new UsageError('--reading brings legend and language; leave out those stated besides.');
  return readTei(path).transcription;
}

function legendFrom(leiden: string, language: string | undefined) {
  try {
    return legendOf(leiden, language);
  } catch (error) {
    throw new UsageError(`--legend: ${(error as Error).message}`);
  }
}

const cardScan = ({ scan, face, kind, material }: PreparedScan): CardScan => ({
  ...{ name: scan.name, sha256: scan.sha256, unit: scan.unit, unitFrom: scan.unitFrom, kind, material },
  ...{ pitchMm: face.relief.pitch, outline: sealOrPiece(face), simulated: scan.simulated },
});

/** The side of the same scan that looks the other way. Throws ScanError where none was scanned. */
async function oppositeOf(first: PreparedScan, input: ScanInput, watch: Watch): Promise<PreparedScan> {
  const [, , , , , , x, y, z] = first.face.faceFromScan.rotation;
  const other = await prepareScan({ ...input, toward: [-x, -y, -z] }, watch);
  if (betweenFaces(first.face, other.face)) return other;
  throw new ScanError('noFace', `${first.scan.name}: no side was found opposite the first; leave out --both-sides.`);
}

/** Turn, offset and thickness of two sides that lie in one scan. */
function lyingTo(first: PreparedScan, other: PreparedScan): Record<string, string> {
  const between = first.scan.sha256 === other.scan.sha256 ? betweenFaces(first.face, other.face) : null;
  if (!between) return {};
  const { thicknessMm, offsetMm, turnDeg } = between;
  return {
    ...{ thickness: thicknessMm.toFixed(1), offset: offsetMm.toFixed(1) },
    ...(turnDeg !== null && { turn: turnDeg.toFixed(0) }),
  };
}

/** What a scan of the other side shows by itself: on a matrix the size of its image. */
function otherSide({ face, kind }: PreparedScan): Record<string, string> {
  const { shape, heightMm, widthMm } = sealOrPiece(face);
  if (kind !== 'matrix') return { side2: 'unknown' };
  return {
    ...{ side2: 'unknown', shape2: shape, imageFrom2: 'matrixEdge' },
    ...{ imageHeight2: heightMm.toFixed(1), imageWidth2: widthMm.toFixed(1) },
  };
}

async function platesOf(
  scans: readonly PreparedScan[],
  { shelfmark }: Card,
  printed: { readonly dpi: number; readonly language: CardLanguage },
) {
  const files = new Map<string, Content>();
  const plates: ManifestPlate[] = [];
  for (const [side, prepared] of scans.entries()) {
    const ending = scans.length > 1 ? `-${side + 1}` : '';
    const face = await facePlate(prepared, { shelfmark, ...printed });
    files.set(`face${ending}.png`, face.png);
    plates.push({ ...face.plate, file: `face${ending}.png`, shows: 'face', side });
    const band = findLegendBand(prepared.face);
    if (!band) continue;
    const strip = await legendPlate(prepared, band, printed);
    files.set(`legend${ending}.png`, strip.png);
    plates.push({ ...strip.plate, file: `legend${ending}.png`, shows: 'strip', side });
  }
  return { files, plates };
}

function addTexts(files: Map<string, Content>, made: Card, words: CardLanguage): void {
  files.set('card.json', `${JSON.stringify(made, null, 2)}\n`);
  files.set('card.jsonld', `${JSON.stringify(cardJsonLd(made), null, 2)}\n`);
  files.set('card.xml', cardTei(made, words));
  files.set('card.csv', cardsCsv([made], words));
}

const manifestOf = (made: Card, plates: readonly ManifestPlate[], options: ManifestOptions): string =>
  `${JSON.stringify(cardManifest(made, plates, options), null, 2)}\n`;

/** Where the manifest will lie and its licence, refused before any work; undefined where none is asked for. */
function manifestOptions(values: Values): ManifestOptions | undefined {
  const [base, rights] = [text(values.base), text(values.licence)];
  if (base === undefined && rights === undefined) return undefined;
  const fault = manifestFault({ base: base ?? '', rights });
  if (fault) throw new UsageError(uncapital(manifestFaultWords(fault)));
  return { base: base ?? '', rights, tei: 'card.xml', jsonLd: 'card.jsonld' };
}
