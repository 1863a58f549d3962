import { Worker } from 'node:worker_threads';
import { seeds } from './seeds.ts';
import { fileOf, tried } from './trial.ts';

/** Limits of one trial. */
export const mostSeconds = 5;
export const mostMegabytes = 600;

/** Looks at the trial from another thread and ends the process where it takes too long or too much, saying which it was. */
const watchman = `
const { workerData } = require('node:worker_threads');
const { writeSync } = require('node:fs');
const { shared, seconds, megabytes } = workerData;
let at = -1, since = 0;
setInterval(() => {
  const now = Date.now(), trial = Atomics.load(shared, 0), used = process.memoryUsage.rss() / 1048576;
  if (used > Atomics.load(shared, 1)) Atomics.store(shared, 1, Math.round(used));
  if (trial !== at) { at = trial; since = now; }
  const words = now - since > seconds * 1000 ? 'more than ' + seconds + ' s' : used > megabytes ? Math.round(used) + ' MB' : '';
  if (words && trial >= 0) { writeSync(1, JSON.stringify({ trial, words }) + '\\n'); process.kill(process.pid, 'SIGKILL'); }
}, 20);
`;

/** Runs trials `from` to `to` and prints one JSON line for each fault and one of counts at the end. */
export async function runTrials(seed: number, from: number, to: number): Promise<void> {
  const shared = new Int32Array(new SharedArrayBuffer(8));
  shared[0] = -1;
  const worker = new Worker(watchman, {
    eval: true,
    workerData: { shared, seconds: mostSeconds, megabytes: mostMegabytes },
  });
  const all = await seeds();
  const counts: Record<string, number> = {};
  let slowest = { trial: -1, ms: 0 };
  for (let trial = from; trial < to; trial++) {
    const file = fileOf(all, seed, trial);
    Atomics.store(shared, 0, trial);
    const started = performance.now();
    const outcome = await tried(file);
    const ms = performance.now() - started;
    if (ms > slowest.ms) slowest = { trial, ms };
    if (outcome.is === 'fault')
      process.stdout.write(`${JSON.stringify({ trial, name: file.name, words: outcome.words })}\n`);
    const key = `${file.name} ${outcome.is === 'fault' ? 'fault' : outcome.is === 'read' ? 'read' : outcome.code}`;
    counts[key] = (counts[key] ?? 0) + 1;
  }
  process.stdout.write(`${JSON.stringify({ done: to - from, counts, slowest, megabytes: shared[1] })}\n`);
  await worker.terminate();
}
