import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { addressOf, openStore, type Store } from '../../src/store/database/open.ts';

/** PostgreSQL that the tests may make databases in; the tests on it are left out where none is named. */
export const postgresUrl = process.env.ECTYPE_POSTGRES ?? '';

/** The databases that can be tested here. */
export const dialects = ['sqlite', ...(postgresUrl ? ['postgres'] : [])] as ReadonlyArray<'sqlite' | 'postgres'>;

/** A new collection: its address, and what opens it and takes it away again. */
export async function newCollection(dialect: 'sqlite' | 'postgres') {
  const folder = mkdtempSync(join(tmpdir(), 'ectype-store-'));
  const name = `ectype_${folder.slice(-6).toLowerCase()}_${process.pid}`;
  let address = folder;
  if (dialect === 'postgres') {
    await admin(`create database ${name}`);
    const url = new URL(postgresUrl);
    url.pathname = `/${name}`;
    url.searchParams.set('files', folder);
    address = url.href;
  }
  const opened: Promise<Store>[] = [];
  return {
    folder,
    address,
    open(): Promise<Store> {
      const store = openStore(addressOf(address) as NonNullable<ReturnType<typeof addressOf>>);
      opened.push(store);
      return store;
    },
    async remove(): Promise<void> {
      for (const one of await Promise.allSettled(opened)) if (one.status === 'fulfilled') await one.value.close();
      if (dialect === 'postgres') await admin(`drop database ${name} with (force)`);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Asks the server itself. */
export async function admin(command: string, values: readonly string[] = []): Promise<void> {
  const client = new pg.Client({ connectionString: postgresUrl });
  await client.connect();
  await client.query(command, [...values]).finally(() => client.end());
}
