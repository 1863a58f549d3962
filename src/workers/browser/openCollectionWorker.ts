import * as Comlink from 'comlink';
import type { CollectionServices } from './collectionProtocol.ts';

let opened: Comlink.Remote<CollectionServices> | null = null;

/** The worker of a collection's rooms; it is started when it is first asked. */
export function collectionServices(): Comlink.Remote<CollectionServices> {
  opened ??= Comlink.wrap<CollectionServices>(
    new Worker(new URL('./collectionWorker.ts', import.meta.url), { type: 'module', name: 'collection' }),
  );
  return opened;
}
