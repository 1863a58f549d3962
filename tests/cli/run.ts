import { spawnSync } from 'node:child_process';
import { closeSync, openSync } from 'node:fs';

export interface Ran {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
  /** CPU time of the process, seconds, and its greatest memory, MB. */
  readonly seconds: number;
  readonly megabytes: number;
}

/** Writes what the process used to a fourth pipe: the clock on the wall says little on a busy machine. */
export const account = `data:text/javascript,${encodeURIComponent(
  `import { writeSync } from 'node:fs';
   process.on('exit', () => {
     const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
     writeSync(3, JSON.stringify([(userCPUTime + systemCPUTime) / 1e6, maxRSS / 1024]));
   });`,
)}`;

/** Runs the built command line. */
export function ectype(...args: readonly string[]): Ran {
  const done = spawnSync(process.execPath, ['--import', account, 'dist/cli/main.js', ...args], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe', 'pipe'],
    timeout: 110_000,
    maxBuffer: 2 ** 26,
  });
  const used = done.output?.[3];
  const [seconds, megabytes] = usedBy(used);
  return { status: done.status, stdout: done.stdout, stderr: done.stderr, seconds, megabytes };
}

/** Seconds and megabytes out of an account. */
export const usedBy = (text: string | undefined | null): [seconds: number, megabytes: number] =>
  text ? (JSON.parse(text) as [number, number]) : [Number.NaN, Number.NaN];

/** The exit code where standard output goes into a file. */
export function ectypeInto(file: string, ...args: readonly string[]): number | null {
  const out = openSync(file, 'w');
  try {
    return spawnSync(process.execPath, ['dist/cli/main.js', ...args], { stdio: ['ignore', out, 'ignore'] }).status;
  } finally {
    closeSync(out);
  }
}
