#!/usr/bin/env node
import { waitBeforeCompiling } from './engine.ts';
import { exitCodeOf, lineOf, UsageError } from './errors.ts';
import { helpOption, parseOptions } from './options.ts';
import { notWritten } from './output/errors.ts';
import { helpOf, type Verb } from './verb.ts';
import { build, version } from './version.ts';

/** Each verb is loaded when it is called: fonts and figures are not needed to describe a scan. */
const verbs: Readonly<Record<string, () => Promise<Verb>>> = {
  describe: async () => (await import('./verbs/describe.ts')).describe,
  compare: async () => (await import('./verbs/compare.ts')).compare,
  change: async () => (await import('./verbs/change.ts')).change,
  light: async () => (await import('./verbs/light.ts')).light,
  strip: async () => (await import('./verbs/strip.ts')).strip,
  fragments: async () => (await import('./verbs/fragments.ts')).fragments,
  card: async () => (await import('./verbs/card.ts')).card,
  readings: async () => (await import('./verbs/readings.ts')).readings,
  calibrate: async () => (await import('./verbs/calibrate.ts')).calibrate,
  add: async () => (await import('./verbs/add.ts')).add,
  find: async () => (await import('./verbs/find.ts')).find,
  group: async () => (await import('./verbs/group.ts')).group,
  remove: async () => (await import('./verbs/remove.ts')).remove,
  worker: async () => (await import('./verbs/worker.ts')).worker,
  serve: async () => (await import('./verbs/serve.ts')).serve,
  samples: async () => (await import('./verbs/samples.ts')).samples,
};

async function overview(): Promise<string> {
  const rows: string[] = [];
  for (const load of Object.values(verbs)) {
    const { name, usage, does } = await load();
    rows.push(`  ${`${name} ${usage}`.padEnd(44)} ${firstSentence(does)}`);
  }
  return `ectype VERB …   tests whether a seal impression came from a matrix, on surface scans\n\n${rows.join('\n')}\n\nectype VERB --help says more.\n`;
}

/** Up to a full stop that ends a sentence: one within a number or a name does not. */
const firstSentence = (text: string): string => /^.*?(?=\.(\s|$))/.exec(text)?.[0] ?? text;

async function main([name, ...args]: readonly string[]): Promise<void> {
  if (name === undefined || name === '--help' || name === 'help') {
    process.stdout.write(await overview());
    if (name === undefined) process.exitCode = 2;
    return;
  }
  if (name === '--version') {
    process.stdout.write(`${version} (build ${build})\n`);
    return;
  }
  if (!Object.hasOwn(verbs, name))
    throw new UsageError(`there is no verb "${name}"; choose one of ${Object.keys(verbs).join(', ')}.`);
  const verb = await verbs[name]();
  const { values, positionals } = parseOptions(args, [...verb.options, helpOption]);
  if (values.help) process.stdout.write(helpOf(verb));
  else await verb.run(positionals, values);
}

waitBeforeCompiling();

/** A reader that has closed its end (`… | head`) is no fault to speak of; a full disk behind standard output is. */
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') process.stderr.write(`${lineOf(notWritten('standard output', error))}\n`);
  process.exit(5);
});

try {
  await main(process.argv.slice(2));
} catch (error) {
  process.stderr.write(`${lineOf(error)}\n`);
  process.exitCode = exitCodeOf(error);
}
