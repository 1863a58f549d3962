import { type ChildProcess, fork } from 'node:child_process';
import { join } from 'node:path';

/** Runs test files in order until one fails, in a process that lives on between mutants. */
export interface Asker {
  /** The first test file that fails with the files `changed` as they stand now; `time` where they do not end; null where all pass. */
  ask(changed: readonly string[], tests: readonly string[]): Promise<string | null>;
  stop(): void;
}

/** After so long the process is ended and the mutant counts as killed: it made something endless, ms. */
const mostMs = 240_000;

export async function startAsker(copy: string): Promise<Asker> {
  let child = await started(copy);
  return {
    async ask(changed, tests) {
      const { failed } = await answer(child, { changed, tests, bail: true });
      if (failed[0] !== 'time') return failed[0] ?? null;
      child.kill('SIGKILL');
      child = await started(copy);
      return 'time';
    },
    stop: () => void child.kill('SIGKILL'),
  };
}

async function started(copy: string): Promise<ChildProcess> {
  const child = fork(join(copy, 'tests/bench/mutants/asked.mjs'), {
    cwd: copy,
    stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
  });
  await answer(child);
  return child;
}

function answer(child: ChildProcess, question?: object): Promise<{ failed: readonly string[] }> {
  return new Promise((settle) => {
    const clock = setTimeout(() => done({ failed: ['time'] }), mostMs);
    const done = (said: unknown): void => {
      clearTimeout(clock);
      child.off('exit', ended);
      child.off('message', done);
      settle(said as { failed: readonly string[] });
    };
    const ended = (): void => done({ failed: ['time'] });
    child.once('exit', ended);
    child.once('message', done);
    if (question) child.send(question);
  });
}
