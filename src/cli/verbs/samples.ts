import { join } from 'node:path';
import { loadHands } from '../../../sample-scans/generator/index.ts';
import { makeSamples } from '../../../sample-scans/generator/samples/index.ts';
import { UsageError } from '../errors.ts';
import { fontFile } from '../fontFile.ts';
import { textOf } from '../options.ts';
import { planOutputs } from '../output/outputs.ts';
import type { Verb } from '../verb.ts';

export const samples: Verb = {
  name: 'samples',
  usage: '[--out DIR]',
  does: 'Makes the sample scans again, byte for byte. All of them are simulated.',
  options: [{ name: 'out', type: 'string', value: 'DIR', help: 'where to (sample-scans where not stated)' }],
  async run(positionals, values) {
    if (positionals.length > 0) throw new UsageError('samples takes no files; --out says where they go.');
    const folder = textOf(values.out) ?? 'sample-scans';
    const files = await makeSamples(
      loadHands((name) => fontFile(`@fontsource/${name}/files/${name}-latin-400-normal.woff`)),
    );
    const outputs = planOutputs({ files: [...files.keys()].map((name) => join(folder, name)) });
    for (const [name, bytes] of files) outputs.file(join(folder, name), bytes);
    await outputs.write();
    process.stdout.write(`${files.size} files written to ${folder}\n`);
  },
};
