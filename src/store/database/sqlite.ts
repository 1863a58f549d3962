import { setTimeout as wait } from 'node:timers/promises';
import {
  type CompiledQuery,
  type DatabaseConnection,
  type Dialect,
  type Driver,
  type QueryResult,
  SqliteAdapter,
  type SqliteDatabase,
  SqliteDialect,
  SqliteDriver,
} from 'kysely';
import Database from 'libsql';

/** How long a writer waits for another to end its transaction, and how long between two tries, ms. */
const patienceMs = 60_000;
const betweenMs = 5;

/**
 * SQLite in one file, several processes at once: the log beside it (WAL) lets readers read while one writes. What is
 * committed outlives a killed process; a computer that loses its power may lose the last commits, never the file.
 */
export function sqliteDialect(file: string): Dialect {
  const database = new Database(file);
  database.exec(`pragma busy_timeout = ${patienceMs}`);
  database.exec('pragma journal_mode = wal');
  database.exec('pragma synchronous = normal');
  database.exec('pragma foreign_keys = on');
  // From here on it is waited between tries, not in them: what holds the lock may be in this very process.
  database.exec('pragma busy_timeout = 0');
  return new PatientDialect(database);
}

class PatientDialect extends SqliteDialect {
  private readonly database: Database.Database;

  constructor(database: Database.Database) {
    super({ database: database as unknown as SqliteDatabase });
    this.database = database;
  }

  override createDriver(): Driver {
    return new PatientDriver(this.database);
  }

  override createAdapter(): SqliteAdapter {
    return new TransactionalAdapter();
  }
}

class PatientDriver extends SqliteDriver {
  private readonly database: Database.Database;

  constructor(database: Database.Database) {
    super({ database: database as unknown as SqliteDatabase });
    this.database = database;
  }

  override async acquireConnection(): Promise<DatabaseConnection> {
    return new PatientConnection(this.database, await super.acquireConnection());
  }

  override beginTransaction(): Promise<void> {
    return begin(this.database);
  }

  override async commitTransaction(): Promise<void> {
    this.database.exec('commit');
  }

  override async rollbackTransaction(): Promise<void> {
    if (this.database.inTransaction) this.database.exec('rollback');
  }
}

/**
 * Asks for the right to write at once: a transaction that asks later can be refused half-way. By `exec`, since a *prepared* statement
 * of this package that was refused keeps a lock until it is collected, and every later one is refused.
 */
async function begin(database: Database.Database): Promise<void> {
  await patiently(() => database.exec('begin immediate'));
}

/** A write that stands alone is a transaction of its own, so that nothing but `begin` is ever refused. */
class PatientConnection implements DatabaseConnection {
  private readonly database: Database.Database;
  private readonly inner: DatabaseConnection;

  constructor(database: Database.Database, inner: DatabaseConnection) {
    this.database = database;
    this.inner = inner;
  }

  async executeQuery<R>(query: CompiledQuery): Promise<QueryResult<R>> {
    if (this.database.inTransaction) return this.inner.executeQuery<R>(query);
    if (query.query.kind === 'SelectQueryNode') return patiently(() => this.inner.executeQuery<R>(query));
    await begin(this.database);
    try {
      const result = await this.inner.executeQuery<R>(query);
      this.database.exec('commit');
      return result;
    } catch (error) {
      if (this.database.inTransaction) this.database.exec('rollback');
      throw error;
    }
  }

  streamQuery<R>(query: CompiledQuery, chunkSize: number): AsyncIterableIterator<QueryResult<R>> {
    return this.inner.streamQuery<R>(query, chunkSize);
  }
}

/** Tries again what another process keeps from being begun. */
async function patiently<T>(attempt: () => T | Promise<T>): Promise<T> {
  const end = Date.now() + patienceMs;
  for (;;)
    try {
      return await attempt();
    } catch (error) {
      if (!isBusy(error) || Date.now() > end) throw error;
      await wait(betweenMs);
    }
}

const isBusy = (error: unknown): boolean =>
  error instanceof Database.SqliteError && String(error.code).startsWith('SQLITE_BUSY');

/** Tables of SQLite are made inside a transaction, so two processes that open a new collection make them once. */
class TransactionalAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}
