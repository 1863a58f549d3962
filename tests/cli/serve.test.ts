import type { Server } from 'node:http';
import { type AddressInfo, connect } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { appServer } from '../../src/cli/serve/appServer.ts';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { hostile, hostileKinds, send } from './hostileRequests.ts';

const page = { type: 'text/html; charset=utf-8', bytes: Buffer.from('<p>the app</p>') };
const script = { type: 'text/javascript; charset=utf-8', bytes: Buffer.from('1') };
let server: Server;
let port = 0;

beforeAll(async () => {
  server = appServer(
    new Map([
      ['/', page],
      ['/index.html', page],
      ['/assets/a b.js', script],
    ]),
  );
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  port = (server.address() as AddressInfo).port;
});

afterAll(() => {
  server.closeAllConnections();
  server.close();
});

const ask = (path: string, options?: RequestInit): Promise<Response> =>
  fetch(`http://127.0.0.1:${port}${path}`, options);

describe('the app’s server', () => {
  it('answers GET and HEAD for the files of its table', async () => {
    for (const path of ['/', '/index.html', '/?a=1#b', '/index.html?x']) {
      const got = await ask(path);
      expect(got.status).toBe(200);
      expect(await got.text()).toBe('<p>the app</p>');
    }
    const encoded = await ask('/assets/a%20b.js');
    expect(encoded.headers.get('content-type')).toBe(script.type);
    expect(encoded.headers.get('x-content-type-options')).toBe('nosniff');
    const head = await ask('/', { method: 'HEAD' });
    expect(head.headers.get('content-length')).toBe(String(page.bytes.length));
    expect(await head.text()).toBe('');
  });

  it('answers nothing else', async () => {
    expect((await ask('/package.json')).status).toBe(404);
    expect((await ask(`/${'a'.repeat(5000)}`)).status).toBe(414);
    for (const method of ['PUT', 'POST', 'DELETE', 'OPTIONS']) {
      const got = await ask('/', { method });
      expect(got.status).toBe(405);
      expect(got.headers.get('allow')).toBe('GET, HEAD');
    }
  });

  it.each(['127.0.0.1', 'localhost', 'LOCALHOST', '[::1]'])('is there for the host %s with its port', async (name) => {
    const bytes = Buffer.from(`HEAD / HTTP/1.1\r\nHost: ${name}:${port}\r\n\r\n`);
    expect(await send({ kind: '', bytes, stays: true }, port)).toBe('HTTP/1.1 200 OK');
  });

  it.each(['evil.example', '127.0.0.1', 'localhost:1', '127.0.0.1@evil', '2130706433', '127.1'])(
    'is not there for the host %s',
    async (name) => {
      const bytes = Buffer.from(`GET / HTTP/1.1\r\nHost: ${name}\r\n\r\n`);
      expect(await send({ kind: '', bytes, stays: true }, port)).toBe('HTTP/1.1 421 Misdirected Request');
    },
  );

  it.each(hostileKinds)('gives no file for %s, and lives', async (kind) => {
    const random = seededRandom(hostileKinds.indexOf(kind) + 1);
    for (let k = 0; k < 12; k++)
      expect(await send(hostile(random, `127.0.0.1:${port}`, kind), port)).not.toMatch(/^HTTP\/1\.\d [235]/);
    expect((await ask('/')).status).toBe(200);
  });

  it('takes no more connections than it can hold, and lets silent ones go', async () => {
    const open = Array.from({ length: 200 }, () => connect(port, '127.0.0.1').on('error', () => undefined));
    await Promise.all(open.map((socket) => new Promise((done) => socket.once('connect', done).once('close', done))));
    for (const socket of open) socket.destroy();
    await expect.poll(async () => (await ask('/').catch(() => null))?.status).toBe(200);
  });
});
