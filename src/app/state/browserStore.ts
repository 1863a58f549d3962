import { type DBSchema, type IDBPDatabase, openDB } from 'idb';

/** What a tab kept, and when. `troubled`: it broke the page or could not be read; it is not offered again. */
export interface StoredSession {
  readonly at: number;
  readonly troubled: boolean;
  /** As it lies there: admitted before it is used. */
  readonly session: unknown;
}

interface Store extends DBSchema {
  /** By session and scan. */
  files: { key: string; value: Blob };
  sessions: { key: string; value: StoredSession };
}

const databaseName = 'ectype';
/** The name that the one session of earlier versions takes. */
export const earlierSession = 'earlier';

let opened: Promise<IDBPDatabase<Store>> | null = null;

/** The browser's store; opened once. Rejects where the browser denies it. */
export function browserStore(): Promise<IDBPDatabase<Store>> {
  // Some browsers refuse by throwing at once.
  opened ??= (async () =>
    openDB<Store>(databaseName, 2, { upgrade: upgraded, blocking: (_, __, event) => closeFor(event) }))();
  opened.catch(() => {
    opened = null;
  });
  return opened;
}

/** Another tab wants a newer store: this one lets go and opens it again when needed. */
function closeFor(event: Event): void {
  (event.target as IDBDatabase | null)?.close();
  opened = null;
}

type Upgrade = NonNullable<Parameters<typeof openDB<Store>>[2]>['upgrade'];

/** Version 1 had one session for all tabs, and files named by scan alone. */
const upgraded: Upgrade = async (base, from, _to, transaction) => {
  base.createObjectStore('sessions');
  if (from === 0) {
    base.createObjectStore('files');
    return;
  }
  const files = transaction.objectStore('files');
  for (const key of await files.getAllKeys()) {
    const file = await files.get(key);
    if (file) await files.put(file, `${earlierSession} ${key}`);
    await files.delete(key);
  }
  const old = (transaction as unknown as { objectStore(name: string): { get(key: string): Promise<unknown> } })
    .objectStore('session')
    .get('now');
  const session = await old;
  if (session)
    await transaction.objectStore('sessions').put({ at: Date.now(), troubled: false, session }, earlierSession);
  (base as unknown as IDBDatabase).deleteObjectStore('session');
};

/** Why the browser kept nothing, as what it is. */
export function storeTrouble(error: unknown): string {
  const name = error instanceof DOMException ? error.name : '';
  if (name === 'QuotaExceededError')
    return 'This browser has no space left for the page: what you do now is not kept. Save your work to a file before closing.';
  if (['SecurityError', 'InvalidStateError', 'NotAllowedError'].includes(name) || typeof indexedDB === 'undefined')
    return 'This browser does not let the page keep anything (a private window?); save your work to a file before closing.';
  return `What the browser keeps for this page cannot be used (${name || 'it is damaged'}); save your work to a file before closing.`;
}
