import { spawn } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';

/** Where a kill fell. */
export type Moment = 'work' | 'writing' | 'after';

/**
 * Runs a program (its file and arguments) that writes into a folder of `parent` and ends it with `signal`: after so many
 * milliseconds, or so many after the first file of the writer has shown itself in `parent`. Says when it fell.
 */
export async function killed(
  program: readonly string[],
  parent: string,
  at: { readonly afterMs: number } | { readonly writingMs: number },
  signal: NodeJS.Signals = 'SIGKILL',
): Promise<{ readonly moment: Moment; readonly status: number | null }> {
  const before = new Set(readdirSync(parent));
  const isWriting = (): boolean => readdirSync(parent).some((name) => name.endsWith('.new') && !before.has(name));
  const child = spawn(process.execPath, [...program], { stdio: 'ignore' });
  const ended = new Promise<number | null>((resolve) => child.once('exit', (code) => resolve(code)));
  let done = false;
  void ended.then(() => {
    done = true;
  });
  if ('afterMs' in at) await Promise.race([wait(at.afterMs), ended]);
  else {
    while (!done && !isWriting()) await wait(1);
    if (at.writingMs > 0) await Promise.race([wait(at.writingMs), ended]);
  }
  const moment: Moment = done ? 'after' : isWriting() ? 'writing' : 'work';
  child.kill(signal);
  return { moment, status: await ended };
}
