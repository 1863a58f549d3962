import { createReadStream, statSync } from 'node:fs';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import { extname, normalize, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { UsageError } from '../errors.ts';
import { numberFrom } from '../options.ts';
import type { Verb } from '../verb.ts';

const root = fileURLToPath(new URL('../app', import.meta.url));

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.wasm': 'application/wasm',
};

/** What may be shown inside frames or sniffed is nothing; the page carries its own content policy as well. */
const headers = {
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Content-Security-Policy': "frame-ancestors 'none'",
  'Cache-Control': 'no-cache',
};

export const serve: Verb = {
  name: 'serve',
  usage: '[--port PORT]',
  does: 'Serves the web app on this computer only (127.0.0.1). Nothing is sent anywhere.',
  options: [{ name: 'port', type: 'string', value: 'PORT', help: 'port (4173 where not stated, 0 for any free one)' }],
  async run(_positionals, values) {
    const port = numberFrom(typeof values.port === 'string' ? values.port : undefined, '--port') ?? 4173;
    if (!Number.isInteger(port) || port < 0 || port > 65535)
      throw new UsageError('--port takes a whole number from 0 to 65535.');
    if (!statSync(root, { throwIfNoEntry: false }))
      throw new UsageError('the app is not built yet: run npm run build first.');
    const server = createServer(answer);
    await new Promise<void>((resolve, reject) => {
      server.once('error', (error: NodeJS.ErrnoException) =>
        reject(
          error.code === 'EADDRINUSE' ? new UsageError(`port ${port} is taken; choose another with --port.`) : error,
        ),
      );
      server.listen(port, '127.0.0.1', resolve);
    });
    const address = server.address();
    const used = typeof address === 'object' && address ? address.port : port;
    process.stdout.write(`Ectype is at http://127.0.0.1:${used}/ (Ctrl+C stops it)\n`);
    await new Promise<void>((resolve) => server.once('close', resolve));
  },
};

function answer(request: IncomingMessage, response: ServerResponse): void {
  const path = fileFor(request.url ?? '/');
  const stat = path && request.method !== 'POST' ? statSync(path, { throwIfNoEntry: false }) : undefined;
  if (!path || !stat?.isFile()) {
    response.writeHead(404, headers).end('Not found.');
    return;
  }
  response.writeHead(200, {
    ...headers,
    'Content-Type': types[extname(path)] ?? 'application/octet-stream',
    'Content-Length': stat.size,
  });
  if (request.method === 'HEAD') response.end();
  else createReadStream(path).pipe(response);
}

/** The file inside the app's folder, or null for anything that leads out of it. */
function fileFor(url: string): string | null {
  let path: string;
  try {
    path = decodeURIComponent(new URL(url, 'http://localhost').pathname);
  } catch {
    return null;
  }
  const full = normalize(`${root}${sep}${path.endsWith('/') ? `${path}index.html` : path}`);
  return full.startsWith(root + sep) ? full : null;
}
