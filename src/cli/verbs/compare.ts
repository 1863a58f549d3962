import { awaitedLater, compareBeside, type Seeing } from '../../core/beside.ts';
import { chosenModel } from '../../core/fit/index.ts';
import {
  type Comparison,
  type Find,
  type FoundScan,
  type PreparedScan,
  preparePair,
  type ScanInput,
  type Weighed,
} from '../../core/pipeline.ts';
import {
  beginReport,
  type ComparisonsRecord,
  type FigureId,
  makeRecord,
  makeReport,
  type Report,
  type ReportOptions,
  stateSentence,
  togetherPage,
} from '../../core/report/index.ts';
import { doubtWords, findingSentence } from '../../core/report/words/index.ts';
import { writePly } from '../../core/scan/index.ts';
import { openSecond, type Second } from '../../workers/node/second.ts';
import { givenByHand } from '../byHand.ts';
import { commandLine } from '../commandLine.ts';
import { quickly } from '../deflate.ts';
import { UsageError } from '../errors.ts';
import { scanInput } from '../files.ts';
import { knownScores } from '../known.ts';
import { manifestOption, namedFiles, type Role, readingOptions, textOf, type Values, valueFor } from '../options.ts';
import type { Content } from '../output/filesList.ts';
import { planOutputs } from '../output/outputs.ts';
import { openPainter, type Painter } from '../painter.ts';
import { type Progress, watchOnTerminal } from '../progress.ts';
import { measuredNoise } from '../repeat.ts';
import { say, sayJson } from '../say.ts';
import { type Compared, datesFrom, joinSubjects, keptOf } from '../together.ts';
import { typeface } from '../typeface.ts';
import type { Verb } from '../verb.ts';
import { build, version } from '../version.ts';

export const compare: Verb = {
  name: 'compare',
  usage: 'REFERENCE SUBJECT… --out DIR',
  does: 'The whole job: fit, depth differences, finding. Writes the record, the figures and a report page into DIR.',
  options: [
    {
      name: 'out',
      type: 'string',
      value: 'DIR',
      help: 'folder for record.json, report.html, figures and tables; new, empty, or of a former run, which is replaced',
    },
    { name: 'json', type: 'string', value: 'FILE', help: 'write the record there as well (- for standard output)' },
    {
      name: 'differences',
      type: 'string',
      value: 'FILE.ply',
      help: "the subject's vertices with their depth differences",
    },
    {
      name: 'calibration',
      type: 'string',
      value: 'FILE',
      help: 'scores of your own known pairs, from ectype calibrate',
    },
    {
      name: 'start',
      type: 'string',
      value: 'TURN[,SCALE]',
      help: 'begin the fit at another turn, degrees clockwise from the one found, as rivals are listed; scale to the reference',
    },
    {
      name: 'pairs',
      type: 'string',
      value: 'FILE',
      help: 'begin the fit at places marked on both scans: JSON { "pairs": [{ "reference": [x, y], "subject": [x, y] }, …] }',
    },
    {
      name: 'exclude',
      type: 'string',
      value: 'FILE',
      help: 'leave regions out: JSON { "regions": [{ "outline": [[x, y], …], "why", "by" }, …] }, mm on the reference\'s face',
    },
    {
      name: 'landmarks',
      type: 'string',
      value: 'FILE',
      help: 'compare the places of these landmarks: JSON { "landmarks": [[x, y], …] }, mm on the reference\'s face',
    },
    {
      name: 'dated',
      type: 'string',
      value: 'TEXT;TEXT;…',
      help: 'dates from documents, one for each subject in order: shown in a column of their own, never used',
    },
    manifestOption,
    ...readingOptions.map((option) => (option.name === 'repeat' ? { ...option, value: 'ROLE=FILE' } : option)),
  ],
  async run(positionals, values) {
    const [reference, ...subjects] = positionals;
    if (subjects.length === 0) throw new UsageError('compare takes a reference scan and at least one subject scan.');
    if (!values.out && !values.json && !values.differences)
      throw new UsageError('say where the result goes: --out DIR, --json FILE or --differences FILE.ply.');
    for (const name of ['differences', 'start', 'pairs'])
      if (subjects.length > 1 && values[name]) throw new UsageError(`--${name} takes one subject.`);
    const dates = datesFrom(values.dated, subjects.length);
    const [out, json, differences] = ['out', 'json', 'differences'].map((name) => textOf(values[name]));
    const outputs = planOutputs({
      folder: out,
      files: [differences],
      json,
      inputs: [...positionals, ...namedFiles(values)],
    });
    const compared: Compared[] = [];
    const against = scanInput(reference, values, 'reference');
    let second: Second | undefined;
    let painter: Painter | undefined;
    const paintBeside = (): Painter => {
      painter ??= openPainter();
      return painter;
    };
    for (const file of subjects) {
      const subject = scanInput(file, values, 'subject');
      const bytes = against.bytes.length + subject.bytes.length;
      second ??= rememberingOf(openSecond(bytes, true, subjects.length), against);
      const { measured, ...one } = await compareOne(against, subject, second, values, paintBeside);
      if (differences !== undefined && measured) outputs.file(differences, measured);
      compared.push(one);
    }
    // A thread takes as long to end as the files to be written.
    const ended = Promise.all([second?.close(), painter?.close()]);
    const { files, text } = gathered(compared, dates);
    outputs.run(files);
    if (json !== undefined && json !== '-') outputs.file(json, text);
    await Promise.all([ended, outputs.write()]);
    if (json === '-') sayJson(text.trimEnd());
  },
};

const jsonOf = (record: object): string => `${JSON.stringify(record, null, 2)}\n`;

/** The run's files by name, the record alone where no reports were made, and the text of that. */
function gathered(compared: readonly Compared[], dates: readonly string[]) {
  const reports = compared.flatMap(({ report }) => report ?? []);
  if (compared.length > 1) return gatheredTogether(joinSubjects(compared, dates), reports);
  const text = jsonOf(compared[0].record);
  return { files: new Map<string, Content>([['record.json', text], ...reports.flatMap(besideRecord)]), text };
}

function gatheredTogether(record: ComparisonsRecord, reports: readonly Report[]) {
  const text = jsonOf(record);
  const files = new Map<string, Content>([['record.json', text]]);
  if (reports.length === 0) return { files, text };
  const of = (which: FigureId) => reports.map(({ figures }) => figures.find(({ id }) => id === which));
  const page = togetherPage(record, { faces: of('faces'), figures: of('difference'), typeface: typeface() });
  files.set('together.html', page);
  reports.forEach((report, k) => {
    files.set(`subject-${k + 1}/record.json`, jsonOf(report.record));
    for (const [name, content] of besideRecord(report)) files.set(`subject-${k + 1}/${name}`, content);
  });
  return { files, text };
}

const besideRecord = ({ html, files }: Report): Array<[string, Content]> => [['report.html', html], ...files];

/** Finds the reference's face once, however many subjects are laid on it; its unit is still decided with each of them. */
function rememberingOf(second: Second, reference: ScanInput): Second {
  let found: Promise<FoundScan> | undefined;
  const find: Find = (input, watch, toBeIndexed) => {
    if (input !== reference) return second.find(input, watch, toBeIndexed);
    found ??= second.find(input, watch, toBeIndexed);
    return found;
  };
  return { ...second, find };
}

/** One subject: the finding, then the record, or for a folder the report, whose figures a thread has made itself ready to paint. */
async function compareOne(
  reference: ScanInput,
  subject: ScanInput,
  second: Second,
  values: Values,
  paintBeside: () => Painter,
) {
  const given = givenByHand(values);
  const watch = watchOnTerminal();
  const [a, b] = await preparePair(reference, subject, watch, second.find);
  const [one, other] = [await withRepeat(a, values, 'reference'), await withRepeat(b, values, 'subject')];
  const known = knownScores(values.calibration);
  const telling = values.json !== '-' ? answerFirst(watch) : silent;
  const painted = new Map<FigureId, Promise<Uint8Array>>();
  const painting: ReportOptions = {
    deflate: quickly,
    paintElsewhere: (id, figure) => painted.set(id, awaitedLater(paintBeside().paint(figure))),
  };
  let begun: ReturnType<typeof beginReport> | undefined;
  let measured: Uint8Array | undefined;
  const seeing: Seeing = {
    weighed: (pair) => {
      telling.weighed(pair);
      // Its thread makes itself ready meanwhile.
      if (values.out) paintBeside();
    },
    measured: (pair) => {
      if (values.out) begun = beginReport(pair, painting);
      if (values.differences) measured = differencesOf(pair);
    },
  };
  const searched = second.searched(one.face, other.face);
  const comparison = await compareBeside(one, other, second.beside, watch, known, given(one, other), seeing, searched);
  const paradata = paradataOf(watch, values);
  watch.done();
  telling.whole(comparison);
  const surfaces = keptOf(comparison);
  if (!values.out) return { record: makeRecord(comparison, paradata), surfaces, measured };
  const report = makeReport(comparison, paradata, { ...painting, typeface: typeface(), ...(begun && { begun }) });
  const files = await withPainted(report.files, painted);
  return { record: report.record, report: { ...report, files }, surfaces, measured };
}

/** Each figure's pixels after its SVG. */
async function withPainted(files: Report['files'], painted: ReadonlyMap<FigureId, Promise<Uint8Array>>) {
  const all: Report['files'] = new Map();
  for (const [name, content] of files) {
    all.set(name, content);
    const png = name.endsWith('.svg') && painted.get(name.slice(0, -'.svg'.length) as FigureId);
    if (png) all.set(name.replace(/svg$/, 'png'), await png);
  }
  return all;
}

/** The scan with its noise measured on a repeat, where one was given. */
async function withRepeat(scan: PreparedScan, values: Values, role: Role): Promise<PreparedScan> {
  if (typeof values.repeat === 'string' && !values.repeat.includes('='))
    throw new UsageError('--repeat: say of which scan it is a repeat: reference=FILE or subject=FILE.');
  const noiseMm = await measuredNoise(scan, valueFor(values.repeat, role), values);
  return noiseMm === undefined ? scan : { ...scan, face: { ...scan.face, noiseMm } };
}

function paradataOf(watch: Progress, values: Values) {
  const { json: _json, out: _out, differences: _differences, ...stated } = values;
  return {
    version,
    build,
    stated,
    startedAt: watch.startedAt,
    seconds: watch.seconds(),
    commandLine: commandLine(),
  };
}

/** The subject's vertices in the file's order and millimetres, with the differences; points without faces. */
function differencesOf({ subject, difference }: Pick<Comparison, 'subject' | 'difference'>): Uint8Array {
  const { positions, offset } = subject.scan.mesh;
  const none = new Float32Array(positions.length / 3).fill(Number.NaN);
  const properties = [{ name: 'depth_difference_mm', values: difference?.perVertexMm ?? none }];
  if (difference?.perVertexWarpedMm)
    properties.push({ name: 'depth_difference_warped_mm', values: difference.perVertexWarpedMm });
  return writePly(positions, null, properties, offset);
}

const silent = { weighed: () => undefined, whole: () => undefined };

/** The finding is told as soon as it stands, what the surfaces show when that is known; the pictures take their time. */
function answerFirst(watch: Progress) {
  let told = false;
  const answer = ({ reference, subject }: Weighed | Comparison, { finding, strength }: Answer): void => {
    watch.done();
    told = true;
    say(
      `${subject.scan.name} against ${reference.scan.name}: ${finding}${strength === 'none' ? '' : ` (${strength})`}`,
    );
  };
  return {
    weighed: (pair: Weighed): void => {
      if (pair.weighed) answer(pair, pair.weighed);
    },
    whole: (comparison: Comparison): void => {
      if (!told) answer(comparison, comparison.judgement);
      say(inWords(comparison));
    },
  };
}

type Answer = Pick<Comparison['judgement'], 'finding' | 'strength'>;

function inWords(comparison: Comparison): string {
  const { fit, difference, judgement } = comparison;
  const model = chosenModel(fit);
  const lines = [findingSentence(judgement, stateSentence(comparison))];
  if (fit.found && model && difference)
    lines.push(
      `fit ${fit.chosen}, size subject ÷ reference ${difference.size.ratio.toFixed(4)} ± ${difference.size.sd.toFixed(4)}, overlap ${Math.round(fit.overlap * 100)} %`,
      `depth difference median ${um(difference.whole.medianMm)}, RMS ${um(difference.whole.rmsMm)}, level of detection ${um(difference.levelOfDetectionMm)}`,
    );
  return [...lines, ...fit.doubts.map((doubt) => `doubt: ${doubtWords(doubt)}`)].join('\n');
}

const um = (mm: number): string => `${Math.round(mm * 1000)} µm`;
