import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { Kysely, Migrator, PostgresDialect, sql } from 'kysely';
import { type DialectName, migrationsFor } from './migrations.ts';
import { sqliteDialect } from './sqlite.ts';
import type { Tables } from './tables.ts';

/** An open collection. */
export interface Store {
  readonly db: Kysely<Tables>;
  readonly dialect: DialectName;
  /** Where faces, pictures and indices lie. */
  readonly folder: string;
  close(): Promise<void>;
}

/** Where a collection is: a folder, or a PostgreSQL database with a folder that all its machines see. */
export interface Address {
  readonly dialect: DialectName;
  readonly folder: string;
  /** Connection of PostgreSQL. */
  readonly url?: string;
}

/**
 * A folder's path, or `postgres://…?files=FOLDER`; null where the second names no folder for the files.
 * The rest of the address goes to the database's own client.
 */
export function addressOf(stated: string): Address | null {
  if (!/^postgres(ql)?:\/\//.test(stated)) return { dialect: 'sqlite', folder: resolve(stated) };
  const url = new URL(stated);
  const files = url.searchParams.get('files');
  if (!files) return null;
  url.searchParams.delete('files');
  return { dialect: 'postgres', folder: resolve(files), url: url.href };
}

/** The collection's database file in its folder. */
export const databaseFile = (folder: string): string => join(folder, 'collection.sqlite');

/** Opens a collection and brings its tables up to date; makes it where there is none. */
export async function openStore({ dialect, folder, url }: Address): Promise<Store> {
  mkdirSync(folder, { recursive: true });
  const db =
    dialect === 'sqlite'
      ? new Kysely<Tables>({ dialect: sqliteDialect(databaseFile(folder)) })
      : await postgres(url as string);
  try {
    await (dialect === 'sqlite' ? migrate(db, dialect) : oneAtATime(db, () => migrate(db, dialect)));
  } catch (error) {
    await db.destroy();
    throw error;
  }
  return { db, dialect, folder, close: () => db.destroy() };
}

async function migrate(db: Kysely<Tables>, dialect: DialectName): Promise<void> {
  const migrations = migrationsFor(dialect);
  const migrator = new Migrator({ db, provider: { getMigrations: async () => migrations } });
  const { error } = await migrator.migrateToLatest();
  if (error) throw error;
}

/** Any number that no other lock of this database bears. */
const migrationLock = 20_261_128;

/**
 * The migrator's own lock lies in a table, and PostgreSQL may refuse one of two that make that table at the same moment:
 * a lock of the server is taken before, on a connection of its own.
 */
async function oneAtATime(db: Kysely<Tables>, act: () => Promise<void>): Promise<void> {
  await db.connection().execute(async (own) => {
    await sql`select pg_advisory_lock(${migrationLock})`.execute(own);
    try {
      await act();
    } finally {
      await sql`select pg_advisory_unlock(${migrationLock})`.execute(own);
    }
  });
}

async function postgres(connectionString: string): Promise<Kysely<Tables>> {
  const { default: pg } = await import('pg');
  const pool = new pg.Pool({ connectionString, max: 4 });
  // A server that ends an idle connection says so here, and without a listener the process would end with it. Nothing is
  // lost: the next question opens another, and fails by itself where the server is gone.
  pool.on('error', () => undefined);
  return new Kysely<Tables>({ dialect: new PostgresDialect({ pool }) });
}

/** The database's own clock, ms since 1970: machines that share one need not agree on the time. */
export async function databaseNow({ db, dialect }: Store): Promise<number> {
  if (dialect === 'sqlite') return Date.now();
  const { rows } = await sql<{ ms: number }>`select extract(epoch from clock_timestamp())::float8 * 1000 as ms`.execute(
    db,
  );
  return rows[0].ms;
}
