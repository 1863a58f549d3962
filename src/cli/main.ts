#!/usr/bin/env node
import { exitCodeOf, lineOf, UsageError } from './errors.ts';
import { helpOption, parseOptions } from './options.ts';
import { helpOf, type Verb } from './verb.ts';
import { calibrate } from './verbs/calibrate.ts';
import { compare } from './verbs/compare.ts';
import { describe } from './verbs/describe.ts';
import { light } from './verbs/light.ts';
import { samples } from './verbs/samples.ts';
import { serve } from './verbs/serve.ts';
import { strip } from './verbs/strip.ts';
import { version } from './version.ts';

const verbs: readonly Verb[] = [describe, compare, light, strip, calibrate, serve, samples];

const overview = `ectype VERB …   tests whether a seal impression came from a matrix, on surface scans\n\n${verbs
  .map((verb) => `  ${`${verb.name} ${verb.usage}`.padEnd(44)} ${verb.does.split('.')[0]}`)
  .join('\n')}\n\nectype VERB --help says more.\n`;

async function main([name, ...args]: readonly string[]): Promise<void> {
  if (name === undefined || name === '--help' || name === 'help') {
    process.stdout.write(overview);
    if (name === undefined) process.exitCode = 2;
    return;
  }
  if (name === '--version') {
    process.stdout.write(`${version}\n`);
    return;
  }
  const verb = verbs.find((candidate) => candidate.name === name);
  if (!verb)
    throw new UsageError(`there is no verb "${name}"; choose one of ${verbs.map((each) => each.name).join(', ')}.`);
  const { values, positionals } = parseOptions(args, [...verb.options, helpOption]);
  if (values.help) process.stdout.write(helpOf(verb));
  else await verb.run(positionals, values);
}

try {
  await main(process.argv.slice(2));
} catch (error) {
  process.stderr.write(`${lineOf(error)}\n`);
  process.exitCode = exitCodeOf(error);
}
