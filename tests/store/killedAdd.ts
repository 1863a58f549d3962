import { spawn } from 'node:child_process';
import { setTimeout as wait } from 'node:timers/promises';

/** Runs `ectype add`, or another verb, and ends it by SIGKILL after so many milliseconds; whether it had ended by itself. */
export async function killedAfter(ms: number, ...args: readonly string[]): Promise<boolean> {
  const child = spawn(process.execPath, ['dist/cli/main.js', ...args], { stdio: 'ignore' });
  let done = false;
  const ended = new Promise<void>((resolve) =>
    child.once('exit', () => {
      done = true;
      resolve();
    }),
  );
  await Promise.race([wait(ms), ended]);
  const byItself = done;
  child.kill('SIGKILL');
  await ended;
  return byItself;
}
