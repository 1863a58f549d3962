import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { seededRandom } from '../../../src/core/geometry/index.ts';
import { hostile, send } from '../../cli/hostileRequests.ts';
import { tableOf } from '../table.ts';

/** So many clients at once. */
const clients = 20;

/**
 * `npm run bench -- serve-hostile [REQUESTS]`: hostile requests of all kinds against the built `ectype serve`. Memory is
 * resident, MB, read from /proc after each tenth of them.
 */
export async function serveHostile(requests: number, seed = 4173): Promise<void> {
  const server = spawn(process.execPath, ['dist/cli/main.js', 'serve', '--port', '0'], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let alive = true;
  server.once('exit', () => {
    alive = false;
  });
  const [line] = (await once(server.stdout, 'data')) as [Buffer];
  const port = Number(/:(\d+)\//.exec(line.toString())?.[1]);
  const random = seededRandom(seed);
  const answers = new Map<string, number>();
  const memory = [residentMb(server.pid)];
  const perTenth = Math.ceil(requests / 10);
  for (let tenth = 0; tenth < 10 && alive; tenth++) {
    let left = perTenth;
    const client = async (): Promise<void> => {
      while (left-- > 0 && alive) {
        const answer = (await send(hostile(random, `127.0.0.1:${port}`), port)) || 'none, or the client left';
        answers.set(answer, (answers.get(answer) ?? 0) + 1);
      }
    };
    await Promise.all(Array.from({ length: clients }, client));
    memory.push(residentMb(server.pid));
  }
  const page = await fetch(`http://127.0.0.1:${port}/`).then(({ status }) => status);
  server.kill();
  const rows = [
    ['alive, and the page’s status', '1, 200', `${Number(alive)}, ${page}`],
    ['files given', '0', String([...answers].filter(([answer]) => / 2\d\d/.test(answer)).length)],
    [`resident memory before and after each tenth, MB (${requests} requests, seed ${seed})`, '', memory.join(' ')],
    ...[...answers].sort(([, a], [, b]) => b - a).map(([answer, count]) => [`answer: ${answer}`, '', String(count)]),
  ];
  process.stdout.write(`${tableOf(rows.map(([what, floor, measured]) => ({ what, floor, measured })))}\n`);
}

const residentMb = (pid: number | undefined): number =>
  Math.round(Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1024);
