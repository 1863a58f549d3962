import { type ChangeComparison, changeBetween } from '../../core/changeBetween.ts';
import { type PreparedScan, preparePair, prepareScan } from '../../core/pipeline.ts';
import { makeChangeReport, uprightOfDates } from '../../core/report/index.ts';
import { changeSentence, changeWords } from '../../core/report/words/index.ts';
import { openSecond } from '../../workers/node/second.ts';
import { commandLine } from '../commandLine.ts';
import { UsageError } from '../errors.ts';
import { scanInput } from '../files.ts';
import { namedFiles, readingOptions, type Values, valueFor } from '../options.ts';
import type { Content } from '../output/filesList.ts';
import { planOutputs } from '../output/outputs.ts';
import { watchOnTerminal } from '../progress.ts';
import { rasteriser } from '../rasterise.ts';
import { say, sayJson } from '../say.ts';
import { typeface } from '../typeface.ts';
import type { Verb } from '../verb.ts';
import { build, version } from '../version.ts';

export const change: Verb = {
  name: 'change',
  usage: 'EARLIER LATER --out DIR',
  does: 'One object on two dates: what changed beyond its own noise, registered on what did not change. No question of matrices is asked.',
  options: [
    {
      name: 'out',
      type: 'string',
      value: 'DIR',
      help: 'folder for record.json, report.html, figures and the table; new, empty, or of a former run, which is replaced',
    },
    { name: 'json', type: 'string', value: 'FILE', help: 'write the record there as well (- for standard output)' },
    ...readingOptions.map((option) => ({
      ...option,
      ...(option.name === 'unit' && { help: 'unit of the coordinates; one value, or earlier=…,later=…' }),
      ...(option.name === 'repeat' && {
        value: 'earlier=FILE',
        several: true as const,
        help: 'a second scan of the same date, from which noise is measured; again with later=FILE',
      }),
    })),
  ],
  async run(positionals, values) {
    if (positionals.length !== 2) throw new UsageError('change takes two scans of one object, the earlier first.');
    if (!values.out && !values.json) throw new UsageError('say where the result goes: --out DIR or --json FILE.');
    if (typeof values.repeat === 'string' && !values.repeat.split(',').every((part) => /^(earlier|later)=./.test(part)))
      throw new UsageError('--repeat: say of which date it is a repeat: earlier=FILE or later=FILE.');
    const [out, json] = ['out', 'json'].map((name) => (typeof values[name] === 'string' ? values[name] : undefined));
    const outputs = planOutputs({ folder: out, json, inputs: [...positionals, ...namedFiles(values)] });
    const watch = watchOnTerminal();
    const scans = await prepared(positionals, values);
    const comparison = changeBetween(scans, watch);
    const { out: _out, json: _json, ...stated } = values;
    const options = out ? { typeface: typeface(), rasterise: await rasteriser() } : { withoutFigures: true };
    const seconds = watch.seconds();
    const paradata = { version, build, stated, startedAt: watch.startedAt, seconds, commandLine: commandLine() };
    const { record, html, files } = makeChangeReport(comparison, paradata, options);
    watch.done();
    const text = `${JSON.stringify(record, null, 2)}\n`;
    outputs.run(new Map<string, Content>([['record.json', text], ['report.html', html], ...files]));
    if (json !== undefined && json !== '-') outputs.file(json, text);
    await outputs.write();
    if (json === '-') sayJson(text.trimEnd());
    else say(inWords(comparison));
  },
};

/** Both dates, and their repeats, each with its date for what its own file leaves open. */
async function prepared([earlierFile, laterFile]: readonly string[], values: Values) {
  const inputs = [scanInput(earlierFile, values, 'earlier'), scanInput(laterFile, values, 'later')] as const;
  const second = openSecond(inputs[0].bytes.length + inputs[1].bytes.length, false);
  const [earlier, later] = await preparePair(...inputs, {}, second.find);
  void second.close();
  const again = (role: 'earlier' | 'later', date: PreparedScan): Promise<PreparedScan> | undefined => {
    const file = valueFor(values.repeat, role);
    return file === undefined ? undefined : prepareScan(scanInput(file, values, role), {}, date);
  };
  const [earlierAgain, laterAgain] = [await again('earlier', earlier), await again('later', later)];
  return { earlier, later, ...(earlierAgain && { earlierAgain }), ...(laterAgain && { laterAgain }) };
}

function inWords(comparison: ChangeComparison): string {
  const { earlier, later, result } = comparison;
  const lines = [
    `${earlier.scan.name} and ${later.scan.name}: ${changeSentence(result, uprightOfDates(comparison).turnDeg)}`,
  ];
  if (result.judged) lines.push(...result.changes.map((each) => `${each.id}  ${changeWords(each)}`));
  return lines.join('\n');
}
