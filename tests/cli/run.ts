import { spawnSync } from 'node:child_process';
import { closeSync, openSync, readFileSync } from 'node:fs';
import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from 'node:worker_threads';

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

/** Runs the built command line in a process of its own, as it is called from a shell. */
export function ectypeAlone(...args: readonly string[]): Ran {
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

interface Relay {
  readonly worker: Worker;
  readonly port: MessagePort;
  /** Whether the call is answered, and the number of the process that stays. */
  readonly shared: Int32Array;
}
let relay: Relay | null = null;

/** The thread that speaks to the process that stays; both go with the process that runs the tests. */
function opened(): Relay {
  if (relay) return relay;
  const shared = new Int32Array(new SharedArrayBuffer(8));
  const { port1: port, port2: carried } = new MessageChannel();
  const worker = new Worker(new URL('./warm/relay.mjs', import.meta.url), {
    workerData: { shared: shared.buffer, port: carried },
    transferList: [carried],
  });
  worker.unref();
  relay = { worker, port, shared };
  return relay;
}

/** No call of a test takes as long, and what is asked again after it still ends within the test's own time. */
const patience = 45_000;

/**
 * Runs the built command line in one process that stays for all calls of a worker's test files, so that neither starting nor compiling
 * is paid again. What a process of its own does else is asked by `ectypeAlone`, as is a call that the one that stays did not answer.
 */
export function ectype(...args: readonly string[]): Ran {
  const { worker, port, shared } = opened();
  Atomics.store(shared, 0, 0);
  port.postMessage(args);
  const late = Atomics.wait(shared, 0, 0, patience) === 'timed-out';
  const answer = receiveMessageOnPort(port) as { message: Ran } | undefined;
  if (!late && answer) return answer.message;
  console.warn(
    `ectype ${args.join(' ')}: ${late ? 'late' : 'nothing came'}; ${stateOf(shared[1])}; asked of another process`,
  );
  // An answer that comes after all is nobody's: the next call opens another.
  relay = null;
  void worker.terminate();
  try {
    process.kill(shared[1], 'SIGKILL');
  } catch {}
  return ectypeAlone(...args);
}

/** What the system tells of a process, for whoever looks for the cause of its silence; nothing elsewhere than on Linux. */
function stateOf(pid: number): string {
  try {
    const [state, threads] = [/^State:.*$/m, /^Threads:.*$/m].map((line) =>
      line.exec(readFileSync(`/proc/${pid}/status`, 'utf8')),
    );
    return `process ${pid}: ${state}, ${threads}, waits in ${readFileSync(`/proc/${pid}/wchan`, 'utf8')}`;
  } catch {
    return `process ${pid} is gone`;
  }
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
