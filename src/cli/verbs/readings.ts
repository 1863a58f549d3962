import { compareReadings } from '../../core/read/index.ts';
import { readingsCsv } from '../../core/report/index.ts';
import { comparedReadingsWords, readingVerdictWords, readPlaceWords } from '../../core/report/words/index.ts';
import { UsageError } from '../errors.ts';
import { textOf } from '../options.ts';
import { planOutputs } from '../output/outputs.ts';
import { say } from '../say.ts';
import { readTei } from '../tei.ts';
import type { Verb } from '../verb.ts';

export const readings: Verb = {
  name: 'readings',
  usage: 'ONE.xml TWO.xml [--out FILE.csv]',
  does: 'Two transcriptions of one legend, saved as TEI, compared letter by letter: where two readers agree, differ, or only one reads.',
  options: [{ name: 'out', type: 'string', value: 'FILE', help: 'all places of both readings as CSV' }],
  async run(positionals, values) {
    if (positionals.length !== 2) throw new UsageError('readings takes two transcriptions saved as TEI.');
    const out = textOf(values.out);
    const outputs = planOutputs({ files: [out], inputs: [...positionals] });
    const [one, two] = positionals.map(readTei);
    const compared = compareReadings(one.transcription, two.transcription);
    if (out) outputs.file(out, readingsCsv(compared, [one.name, two.name]));
    await outputs.write();
    say(`${one.name}, ${two.name}: ${comparedReadingsWords(compared)}`);
    compared.pairs.forEach(({ verdict, one: a, two: b }, k) => {
      if (verdict === 'agree' || verdict === 'readByNeither') return;
      say(`  ${k + 1}. ${readPlaceWords(a)} | ${readPlaceWords(b)}: ${readingVerdictWords(verdict)}`);
    });
  },
};
