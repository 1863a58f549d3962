import { join } from 'node:path';
import { cllr, type KnownScores, log10LikelihoodRatio, rocArea } from '../../core/judge/index.ts';
import { comparePrepared, preparePair } from '../../core/pipeline.ts';
import { readCsv } from '../../core/scan/index.ts';
import { UsageError } from '../errors.ts';
import { readBytes, scanInput } from '../files.ts';
import { calibrationSchemaName } from '../known.ts';
import { manifestOption, namedFiles, readingOptions, type Values } from '../options.ts';
import { planOutputs } from '../output/outputs.ts';
import { watchOnTerminal } from '../progress.ts';
import { say } from '../say.ts';
import type { Verb } from '../verb.ts';

export const calibrate: Verb = {
  name: 'calibrate',
  usage: 'FOLDER',
  does: 'Reference scores from your own known pairs. FOLDER/pairs.csv has the columns reference, subject, same (yes or no); the result is FOLDER/calibration.json.',
  // A pair has one scan of each object.
  options: [manifestOption, ...readingOptions.filter(({ name }) => name !== 'repeat')],
  async run(positionals, values) {
    if (positionals.length !== 1) throw new UsageError('calibrate takes one folder with a pairs.csv in it.');
    const [folder] = positionals;
    const pairs = readPairs(join(folder, 'pairs.csv'));
    const path = join(folder, 'calibration.json');
    const outputs = planOutputs({ files: [path], inputs: [...scansOf(folder, pairs), ...namedFiles(values)] });
    const known: KnownScores = await scorePairs(folder, pairs, values);
    outputs.file(path, `${JSON.stringify({ schema: calibrationSchemaName, ...known }, null, 2)}\n`);
    await outputs.write();
    say(`${summary(known)}\nwritten to ${path}; use it with ectype compare --calibration ${path}`);
  },
};

interface KnownPair {
  readonly reference: string;
  readonly subject: string;
  readonly same: boolean;
}

function readPairs(path: string): KnownPair[] {
  const [head = [], ...lines] = readCsv(new TextDecoder().decode(readBytes(path)).trim());
  const columns = head.map((column) => column.trim());
  const [reference, subject, same] = ['reference', 'subject', 'same'].map((name) => columns.indexOf(name));
  if (reference < 0 || subject < 0 || same < 0)
    throw new UsageError(`${path}: the first line must name the columns reference, subject and same.`);
  return lines.map((line, k) => {
    const cells = line.map((cell) => cell.trim());
    if (!['yes', 'no'].includes(cells[same])) throw new UsageError(`${path}, line ${k + 2}: same must be yes or no.`);
    return { reference: cells[reference], subject: cells[subject], same: cells[same] === 'yes' };
  });
}

const scansOf = (folder: string, pairs: readonly KnownPair[]): string[] =>
  pairs.flatMap(({ reference, subject }) => [join(folder, reference), join(folder, subject)]);

async function scorePairs(folder: string, pairs: readonly KnownPair[], values: Values): Promise<KnownScores> {
  const same: number[] = [];
  const different: number[] = [];
  let withoutFit = 0;
  for (const [k, pair] of pairs.entries()) {
    const watch = watchOnTerminal();
    const [a, b] = await preparePair(
      scanInput(join(folder, pair.reference), values, 'reference'),
      scanInput(join(folder, pair.subject), values, 'subject'),
    );
    const { judgement, fit } = comparePrepared(a, b, {
      progress: (part) => watch.progress?.((k + part) / pairs.length, `pair ${k + 1} of ${pairs.length}`),
    });
    watch.done();
    // A pair that cannot be laid on one another has no score, and none is made up for it.
    if (fit.found) (pair.same ? same : different).push(judgement.score);
    else withoutFit++;
  }
  const left = withoutFit > 0 ? `, ${withoutFit} without a fit left out` : '';
  return { name: `${same.length + different.length} known pairs of ${folder}${left}`, same, different };
}

function summary(known: KnownScores): string {
  const { same, different } = known;
  const counts = `${same.length} pairs of one matrix, ${different.length} of different ones`;
  if (same.length < 10 || different.length < 10)
    return `${counts}: at least ten of each are needed before a likelihood ratio is given.`;
  const ratio = (score: number): number => 10 ** (log10LikelihoodRatio(score, known) ?? 0);
  return `${counts}: C_llr ${cllr(same.map(ratio), different.map(ratio)).toFixed(3)} on the same pairs (0 is perfect, 1 says nothing), area under the ROC curve ${rocArea(known).toFixed(3)}`;
}
