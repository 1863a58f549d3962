import { statSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { fileURLToPath } from 'node:url';
import type { Store } from '../../store/database/open.ts';
import { withCollection } from '../collection/collection.ts';
import { UsageError } from '../errors.ts';
import { numberFrom } from '../options.ts';
import { appServer } from '../serve/appServer.ts';
import { collectionPages } from '../serve/collectionPages.ts';
import { staticTable } from '../serve/staticTable.ts';
import type { Verb } from '../verb.ts';

const root = fileURLToPath(new URL('../app', import.meta.url));

export const serve: Verb = {
  name: 'serve',
  usage: '[--in COLLECTION] [--port PORT]',
  does: 'Serves the web app on this computer only. Nothing is sent anywhere.',
  options: [
    {
      name: 'in',
      type: 'string',
      value: 'COLLECTION',
      help: 'serve the groups of this collection as well, under /collection/',
    },
    { name: 'port', type: 'string', value: 'PORT', help: 'port (4173 where not stated, 0 for any free one)' },
  ],
  async run(positionals, values) {
    if (positionals.length > 0) throw new UsageError('serve takes no files; scans are opened in the app.');
    const port = numberFrom(typeof values.port === 'string' ? values.port : undefined, '--port') ?? 4173;
    if (!Number.isInteger(port) || port < 0 || port > 65535)
      throw new UsageError('--port takes a whole number from 0 to 65535.');
    if (!statSync(root, { throwIfNoEntry: false }))
      throw new UsageError('the app is not built yet: run npm run build first.');
    if (values.in === undefined) await serveUntilClosed(port);
    else await withCollection(values.in, '--in', (store) => serveUntilClosed(port, store));
  },
};

/** Serves the app, and a collection beside it. */
async function serveUntilClosed(port: number, store?: Store): Promise<void> {
  const server = appServer(staticTable(root), store && collectionPages(store));
  await new Promise<void>((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => reject(refused(error, port)));
    server.listen(port, '127.0.0.1', resolve);
  });
  // A connection that could not be taken is one connection less, not the end.
  server.on('error', () => undefined);
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
  process.stdout.write(
    `Ectype is at ${url} (Ctrl+C stops it)\n${store ? `The collection is at ${url}collection/\n` : ''}`,
  );
  await new Promise<void>((resolve) => server.once('close', resolve));
}

function refused(error: NodeJS.ErrnoException, port: number): Error {
  if (error.code === 'EADDRINUSE') return new UsageError(`port ${port} is taken; choose another with --port.`);
  if (error.code === 'EACCES') return new UsageError(`port ${port} is not for everyone; choose another with --port.`);
  return error;
}
