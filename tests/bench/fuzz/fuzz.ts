import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { mostMegabytes, mostSeconds } from './child.ts';

const batch = 20_000;

interface Fault {
  readonly trial: number;
  readonly words: string;
  readonly name?: string;
}

interface Slowest {
  readonly trial: number;
  readonly ms: number;
}

interface Tally {
  trials: number;
  slowest: Slowest;
  megabytes: number;
  readonly counts: Map<string, number>;
  readonly faults: Fault[];
}

/**
 * Runs `count` mutations of small sound files through the one door, in child processes that a watchman ends where a
 * trial takes more than 5 s or 600 MB. Prints what came of them, and every fault with the seed and number that make it again.
 */
export async function fuzz(count: number, seed: number): Promise<void> {
  process.stderr.write(`fuzz: ${count} mutations from seed ${seed}\n`);
  const tally: Tally = { trials: 0, slowest: { trial: -1, ms: 0 }, megabytes: 0, counts: new Map(), faults: [] };
  for (let from = 0; from < count; ) {
    const to = Math.min(count, from + batch);
    const ended = await runBatch(seed, from, to, tally);
    // A trial that was ended is tried again alone: memory of the trials before it is not its own.
    if (ended) await again(seed, ended, tally);
    tally.trials += (ended ? ended.trial + 1 : to) - from;
    from = ended ? ended.trial + 1 : to;
    process.stderr.write(`\r${from} of ${count}, ${tally.faults.length} faults`);
  }
  process.stdout.write(`\n${said(tally, seed)}\n`);
  if (tally.faults.length > 0) process.exitCode = 1;
}

/** One child; the trial at which it was ended, if it was. */
async function runBatch(seed: number, from: number, to: number, tally: Tally): Promise<Fault | undefined> {
  const child = spawn(process.execPath, [process.argv[1], 'fuzz-trials', `${seed}`, `${from}`, `${to}`], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let last: Fault | undefined;
  let done = false;
  for await (const line of createInterface({ input: child.stdout })) {
    const said = JSON.parse(line) as Fault & {
      done?: number;
      counts: Record<string, number>;
      slowest: Slowest;
      megabytes: number;
    };
    if (said.done === undefined) {
      if (last) tally.faults.push(last);
      last = said;
      continue;
    }
    done = true;
    for (const [key, n] of Object.entries(said.counts)) tally.counts.set(key, (tally.counts.get(key) ?? 0) + n);
    if (said.slowest.ms > tally.slowest.ms) tally.slowest = said.slowest;
    tally.megabytes = Math.max(tally.megabytes, said.megabytes);
  }
  if (done && last) tally.faults.push(last);
  return done ? undefined : (last ?? { trial: to - 1, words: 'the process ended without a word' });
}

async function again(seed: number, { trial, words }: Fault, tally: Tally): Promise<void> {
  const ended = await runBatch(seed, trial, trial + 1, tally);
  if (ended) tally.faults.push({ trial, words });
}

function said({ trials, slowest, megabytes, counts, faults }: Tally, seed: number): string {
  const names = [...new Set([...counts.keys()].map((key) => key.split(' ')[0]))];
  const rows = names.map((name) => {
    const of = (what: string) => counts.get(`${name} ${what}`) ?? 0;
    const all = [...counts].filter(([key]) => key.startsWith(`${name} `)).reduce((sum, [, n]) => sum + n, 0);
    return [name, all, of('read'), all - of('read') - of('fault'), of('fault')];
  });
  const head = ['file', 'mutations', 'read', 'refused', 'faults'];
  return [
    `${trials} mutations, seed ${seed}: ${faults.length} faults; slowest ${slowest.ms.toFixed(0)} ms (trial ${slowest.trial}), most memory of a process ${megabytes} MB; limits ${mostSeconds} s and ${mostMegabytes} MB.`,
    '',
    ...[head, ...rows]
      .map((row) => `| ${row.join(' | ')} |`)
      .flatMap((line, i) => (i === 0 ? [line, '|---|---|---|---|---|'] : [line])),
    ...faults.slice(0, 50).map(({ trial, name = '', words }) => `- seed ${seed}, trial ${trial} ${name}: ${words}`),
  ].join('\n');
}
