// Carries calls to the process that stays, and answers back, beside a caller that waits without returning to its loop.
import { fork } from 'node:child_process';
import { workerData } from 'node:worker_threads';

const { port } = workerData;
const answered = new Int32Array(workerData.answered);
const child = fork(new URL('./host.mjs', import.meta.url), { execArgv: [] });
const tell = (answer) => {
  port.postMessage(answer);
  Atomics.store(answered, 0, 1);
  Atomics.notify(answered, 0);
};
child.on('message', tell);
child.on('exit', (status) =>
  tell({ status, stdout: '', stderr: 'the process ended by itself\n', seconds: NaN, megabytes: NaN }),
);
port.on('message', (args) => child.send(args));
