import type { Reporter, TestModule } from 'vitest/node';

/** Closes the run with one plain line that a machine can read. */
export default class Tally implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const count = { passed: 0, failed: 0, skipped: 0, pending: 0 };
    for (const module of modules) {
      if (module.state() === 'failed' && [...module.children.allTests()].length === 0) count.failed++;
      for (const test of module.children.allTests()) count[test.result().state]++;
    }
    process.stdout.write(
      `\n${count.passed} passed, ${count.failed} failed, ${count.skipped + count.pending} skipped\n`,
    );
  }
}
