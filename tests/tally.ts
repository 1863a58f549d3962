import type { Reporter, TestModule, TestRunEndReason, Vitest } from 'vitest/node';
import { dataFolder, knownRealTests } from './realData.ts';

const isReal = (name: string): boolean => name.includes('[needs ');

/**
 * Closes the run with one plain line that a machine can read. Tests of files made by others are counted apart: where
 * the files are at hand, fewer than are known is a failure; where they are not, a line says how many were not run.
 */
export default class Tally implements Reporter {
  private vitest: Vitest | undefined;

  onInit(vitest: Vitest): void {
    this.vitest = vitest;
  }

  onTestRunEnd(modules: readonly TestModule[], _: readonly unknown[], reason: TestRunEndReason): void {
    const count = { passed: 0, failed: 0, skipped: 0, pending: 0 };
    let notRun = 0;
    for (const module of modules) {
      const tests = [...module.children.allTests()];
      if (module.state() === 'failed' && tests.length === 0) count.failed++;
      for (const test of tests) count[test.result().state]++;
      const ran = tests.filter((test) => isReal(test.fullName) && /passed|failed/.test(test.result().state)).length;
      const known = knownRealTests[module.relativeModuleId.replaceAll('\\', '/')] ?? 0;
      notRun += Math.max(0, known - ran);
    }
    process.stdout.write(
      `\n${count.passed} passed, ${count.failed} failed, ${count.skipped + count.pending} skipped\n`,
    );
    if (notRun === 0) return;
    process.stdout.write(`${notRun} real-file tests not run\n`);
    // A run of chosen names leaves out the others on purpose, and a broken-off one never came to them.
    if (dataFolder() === null || reason === 'interrupted' || this.vitest?.config.testNamePattern) return;
    process.stdout.write('The files are at hand: that so many fewer ran than are known is a failure.\n');
    process.exitCode = 1;
  }
}
