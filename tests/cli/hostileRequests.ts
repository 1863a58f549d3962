import { connect } from 'node:net';
import type { Random } from '../../src/core/geometry/index.ts';

/** What a hostile client sends, and whether it stays to hear the answer. */
export interface Hostile {
  readonly kind: string;
  readonly bytes: Buffer;
  readonly stays: boolean;
}

const bytesOf = (random: Random, count: number): Buffer =>
  Buffer.from(Array.from({ length: count }, () => random.below(256)));

/** Kinds of requests by name; `host` is the server's own. None of them may be answered with a file. */
const makers: Readonly<Record<string, (random: Random, host: string) => string | Buffer>> = {
  'a zero byte': (_, host) => get('/%00', host),
  'zero bytes within': (_, host) => get('/index.html%00.js', host),
  'a long path': (random, host) => get(`/${'a'.repeat(2000 + random.below(3000))}`, host),
  'a path longer than all headers may be': (_, host) => get(`/${'a'.repeat(60_000)}`, host),
  'bad percents': (random, host) => get(`/%${random.pick(['', 'f', 'zz', 'ff', 'c0%af', 'u0041', 'ed%a0%80'])}x`, host),
  'out of the folder': (random, host) =>
    get(`/${random.pick(['..', '%2e%2e', '..%2f..', '..\\..', '%2e%2e%5c', '....//'])}/package.json`, host),
  'another method': (random, host) =>
    `${random.pick(['PUT', 'POST', 'DELETE', 'PATCH', 'OPTIONS', 'TRACE', 'PROPFIND'])} / HTTP/1.1\r\nHost: ${host}\r\n\r\n`,
  'no method at all': (random, host) =>
    `${random.pick(['get', 'FETCH', '', '\u0000'])} / HTTP/1.1\r\nHost: ${host}\r\n\r\n`,
  'a tunnel': (_, host) => `CONNECT ${host} HTTP/1.1\r\nHost: ${host}\r\n\r\n`,
  'a body that never comes': (_, host) => `POST / HTTP/1.1\r\nHost: ${host}\r\nContent-Length: 99999999999\r\n\r\nx`,
  'broken chunks': (_, host) => `POST / HTTP/1.1\r\nHost: ${host}\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\n`,
  'two lengths': (_, host) => `GET / HTTP/1.1\r\nHost: ${host}\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n`,
  'another host': (random, host) =>
    get(
      '/',
      random.pick([
        'evil.example',
        `evil.example:${host.split(':')[1]}`,
        '127.0.0.1:1',
        '0.0.0.0',
        `127.0.0.1.evil.example:${host.split(':')[1]}`,
        '[::2]',
        '',
      ]),
    ),
  'no host': () => 'GET / HTTP/1.1\r\n\r\n',
  'the old protocol without a host': () => 'GET / HTTP/1.0\r\n\r\n',
  'a whole address': (_, host) => get('http://evil.example/', host),
  'many headers': (random, host) =>
    `PUT / HTTP/1.1\r\nHost: ${host}\r\n${Array.from({ length: 100 + random.below(900) }, (_, k) => `X-${k}: y`).join('\r\n')}\r\n\r\n`,
  'a large header': (random, host) =>
    `GET / HTTP/1.1\r\nHost: ${host}\r\nX: ${'y'.repeat(9000 + random.below(60_000))}\r\n\r\n`,
  'a header folded in two': (_, host) => `GET / HTTP/1.1\r\nHost: ${host}\r\nX: a\r\n b\r\n: c\r\n\r\n`,
  noise: (random) => bytesOf(random, 1 + random.below(4000)),
  'noise after a request': (random, host) => Buffer.concat([Buffer.from(get('/nothing', host)), bytesOf(random, 500)]),
  'one request after another': (random, host) => get('/nothing', host).repeat(2 + random.below(50)),
  'half a request': (random, host) => get('/index.html', host).slice(0, 1 + random.below(20)),
  'an upgrade': (_, host) => `PUT / HTTP/1.1\r\nHost: ${host}\r\nConnection: Upgrade\r\nUpgrade: websocket\r\n\r\n`,
  'an expectation': (_, host) =>
    `POST / HTTP/1.1\r\nHost: ${host}\r\nExpect: ${'100-continue'}\r\nContent-Length: 5\r\n\r\n`,
  'a handshake of TLS': (random) => Buffer.concat([Buffer.from('1603010200010001fc0303', 'hex'), bytesOf(random, 500)]),
};

const get = (path: string, host: string): string => `GET ${path} HTTP/1.1\r\nHost: ${host}\r\n\r\n`;

export const hostileKinds = Object.keys(makers);

export function hostile(random: Random, host: string, kind = random.pick(hostileKinds)): Hostile {
  const made = makers[kind](random, host);
  const waits = kind === 'half a request' || kind === 'a body that never comes';
  return { kind, bytes: Buffer.from(made as string), stays: !waits && random.next() < 0.8 };
}

/** Sends it and gives the first line of the answer, or "" where there was none or the client left at once. */
export function send({ bytes, stays }: Hostile, port: number): Promise<string> {
  return new Promise((resolve) => {
    let heard = '';
    const socket = connect(port, '127.0.0.1', () => {
      socket.write(bytes);
      if (!stays) setTimeout(() => socket.destroy(), 1);
      else if (!bytes.includes('\r\n\r\n')) socket.end();
    });
    socket.setTimeout(2000, () => socket.destroy());
    socket.on('data', (data) => {
      heard += data.toString('latin1');
      if (heard.includes('\r\n\r\n')) socket.end();
    });
    socket.on('error', () => undefined);
    socket.on('close', () => resolve(heard.split('\r\n')[0]));
  });
}
