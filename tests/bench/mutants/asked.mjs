import { createVitest } from 'vitest/node';
import { kernelsForVite } from '../../../src/build/kernels.mjs';

/**
 * A process of its own that keeps vitest, with its transformed modules, between mutants. A message { changed, tests }
 * says which files were rewritten and which test files are to run, in this order until one fails; the answer is
 * { failed }, their names. An endless loop stops this process too: who asks ends it and starts another.
 */
class AsListed {
  async shard(files) {
    return files;
  }
  async sort(files) {
    return [...files].sort((a, b) => order.indexOf(a.moduleId) - order.indexOf(b.moduleId));
  }
}

let order = [];
const settings = {
  config: false,
  root: process.cwd(),
  watch: false,
  include: ['tests/**/*.test.ts'],
  reporters: [{}],
  pool: 'threads',
  isolate: false,
  maxWorkers: 1,
  bail: 1,
  testTimeout: 300_000,
  hookTimeout: 300_000,
  sequence: { sequencer: AsListed },
};
const vitest = await createVitest('test', settings, { plugins: [kernelsForVite()] });
await vitest.standalone();
const all = new Map((await vitest.globTestSpecifications()).map((each) => [each.moduleId, each]));

process.on('message', async ({ changed, tests, bail }) => {
  vitest.config.bail = bail ? 1 : 0;
  for (const project of vitest.projects) project.config.bail = bail ? 1 : 0;
  for (const file of changed) vitest.invalidateFile(file);
  order = tests;
  if (tests.length === 0) return process.send({ failed: [] });
  const { testModules, unhandledErrors } = await vitest.runTestSpecifications(tests.map((test) => all.get(test)));
  // The answer holds what was asked before, too.
  const ran = testModules.filter((each) => tests.includes(each.moduleId) && each.state() === 'failed');
  const failed = tests.filter((test) => ran.some(({ moduleId }) => moduleId === test));
  process.send({ failed: failed.length === 0 && unhandledErrors.length > 0 ? ['an error outside the tests'] : failed });
});
process.send('ready');
