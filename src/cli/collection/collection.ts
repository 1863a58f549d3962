import { existsSync, readdirSync } from 'node:fs';
import { addressOf, databaseFile, openStore, type Store } from '../../store/database/open.ts';
import { UsageError } from '../errors.ts';
import { OutputError } from '../output/errors.ts';

/** The collection that `--in` or `--to` names, open for `use`, and closed after it. */
export async function withCollection<T>(
  stated: string | boolean | undefined,
  option: '--in' | '--to',
  use: (store: Store) => Promise<T>,
): Promise<T> {
  if (typeof stated !== 'string')
    throw new UsageError(`name the collection: ${option} FOLDER, or ${option} postgres://….`);
  const address = addressOf(stated);
  if (!address)
    throw new UsageError(
      `${option}: a collection on PostgreSQL names the folder of its files too, which all its machines see: postgres://…?files=FOLDER.`,
    );
  if (address.dialect === 'sqlite') refuseWrongFolder(address.folder, stated, option);
  const store = await opened(address);
  try {
    return await use(store);
  } finally {
    await store.close();
  }
}

function refuseWrongFolder(folder: string, stated: string, option: '--in' | '--to'): void {
  if (existsSync(databaseFile(folder))) return;
  if (option === '--in')
    throw new UsageError(`there is no collection in ${stated}; make one with ectype add MANIFEST.csv --to ${stated}.`);
  if (existsSync(folder) && readdirSync(folder).length > 0)
    throw new UsageError(`${stated} holds other things than a collection; give a new or an empty folder.`);
}

async function opened(address: NonNullable<ReturnType<typeof addressOf>>): Promise<Store> {
  try {
    return await openStore(address);
  } catch (error) {
    const code = String((error as NodeJS.ErrnoException).code);
    if (code === 'MODULE_NOT_FOUND')
      throw new UsageError(
        'this package was built on another system and brings no SQLite for this one; build it here.',
      );
    if (address.dialect === 'postgres')
      throw new OutputError(
        `the database cannot be used: ${(error as Error).message || code}; start it or correct the address.`,
      );
    if (/^(E[A-Z]+|SQLITE_.*)$/.test(code))
      throw new OutputError(
        `${address.folder} cannot be used as a collection: ${(error as Error).message}; give another folder.`,
      );
    throw error;
  }
}
