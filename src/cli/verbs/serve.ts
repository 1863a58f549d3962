import { randomBytes } from 'node:crypto';
import { statSync } from 'node:fs';
import { type AddressInfo, isIP } from 'node:net';
import { fileURLToPath } from 'node:url';
import type { Store } from '../../store/database/open.ts';
import { openVerifier } from '../../workers/node/verifyInThread.ts';
import { withCollection } from '../collection/collection.ts';
import { tools } from '../collection/tools.ts';
import { UsageError } from '../errors.ts';
import { numberFrom, textOf } from '../options.ts';
import { type Access, bracketed } from '../serve/access.ts';
import { appServer } from '../serve/appServer.ts';
import { collectionServer } from '../serve/collection/collectionServer.ts';
import { collectionPage, staticTable, withCollectionNamed } from '../serve/staticTable.ts';
import type { Verb } from '../verb.ts';

const root = fileURLToPath(new URL('../app', import.meta.url));

export const serve: Verb = {
  name: 'serve',
  usage: '[--in COLLECTION] [--port PORT]',
  does: 'Serves the web app on this computer only. Nothing is sent anywhere. With --address it is served to others too, who need the token that is printed.',
  options: [
    {
      name: 'in',
      type: 'string',
      value: 'COLLECTION',
      help: 'serve this collection as well, under /collection/: its tray, search by an image, and groups',
    },
    { name: 'port', type: 'string', value: 'PORT', help: 'port (4173 where not stated, 0 for any free one)' },
    {
      name: 'address',
      type: 'string',
      value: 'ADDRESS',
      help: 'an address of this computer in its network, 192.168.1.20 for one, to be reached at by others with the token',
    },
  ],
  async run(positionals, values) {
    if (positionals.length > 0) throw new UsageError('serve takes no files; scans are opened in the app.');
    const port = numberFrom(textOf(values.port), '--port') ?? 4173;
    if (!Number.isInteger(port) || port < 0 || port > 65535)
      throw new UsageError('--port takes a whole number from 0 to 65535.');
    if (!statSync(root, { throwIfNoEntry: false }))
      throw new UsageError('the app is not built yet: run npm run build first.');
    const access = accessFrom(values.address);
    if (values.in === undefined) await serveUntilClosed(port, access);
    else await withCollection(values.in, '--in', (store) => serveUntilClosed(port, access, store));
  },
};

/** Without an address the loopback alone; with one a new token, which ends with this run. */
function accessFrom(address: string | boolean | undefined): Access {
  if (address === undefined) return {};
  if (typeof address !== 'string' || isIP(address) === 0 || /^(0\.0\.0\.0|::)$/.test(address))
    throw new UsageError('--address takes one address of this computer, as 192.168.1.20; not every one at once.');
  return { address, token: randomBytes(24).toString('base64url') };
}

/** Serves the app, and a collection beside it. */
async function serveUntilClosed(port: number, access: Access, store?: Store): Promise<void> {
  const table = staticTable(root);
  const verifier = openVerifier(tools.tool);
  const server = store
    ? appServer(
        withCollectionNamed(table),
        collectionServer(store, (a, b) => verifier.verify(a, b), collectionPage(table)),
        access,
      )
    : appServer(table, null, access);
  await new Promise<void>((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => reject(refused(error, port)));
    server.listen(port, access.address ?? '127.0.0.1', resolve);
  });
  // A connection that could not be taken is one connection less, not the end.
  server.on('error', () => undefined);
  const url = `http://${bracketed(access.address ?? '127.0.0.1')}:${(server.address() as AddressInfo).port}/`;
  const token = access.token ? `?token=${access.token}` : '';
  process.stdout.write(
    `Ectype is at ${url}${token} (Ctrl+C stops it)\n${store ? `The collection is at ${url}collection/${token}\n` : ''}`,
  );
  await new Promise<void>((resolve) => server.once('close', resolve));
}

function refused(error: NodeJS.ErrnoException, port: number): Error {
  if (error.code === 'EADDRINUSE') return new UsageError(`port ${port} is taken; choose another with --port.`);
  if (error.code === 'EACCES') return new UsageError(`port ${port} is not for everyone; choose another with --port.`);
  if (error.code === 'EADDRNOTAVAIL') return new UsageError('--address: this computer has no such address.');
  return error;
}
