// Carries calls to the process that stays, and answers back, beside a caller that waits without returning to its loop.
import { fork } from 'node:child_process';
import { workerData } from 'node:worker_threads';

const { port } = workerData;
const shared = new Int32Array(workerData.shared);
const tell = (answer) => {
  port.postMessage(answer);
  Atomics.store(shared, 0, 1);
  Atomics.notify(shared, 0);
};

let child = null;
/** The process that stays; another where one has ended by itself. */
function running() {
  if (child) return child;
  child = fork(new URL('./host.mjs', import.meta.url), { execArgv: [] });
  shared[1] = child.pid;
  child.on('message', tell);
  child.on('exit', (status) => {
    child = null;
    tell({ status, stdout: '', stderr: 'the process ended by itself\n', seconds: Number.NaN, megabytes: Number.NaN });
  });
  return child;
}
port.on('message', (args) => running().send(args));
