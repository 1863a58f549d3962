import { keepBlob } from './bytes.ts';
import { type Document, emptyDocument, restingView } from './document.ts';
import { historyOf } from './history.ts';
import { getState, notify, type Scheme, setState, useStore } from './store.ts';

const database = 'ectype';
let opened: Promise<IDBDatabase> | null = null;

function openDatabase(): Promise<IDBDatabase> {
  opened ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(database, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore('files');
      request.result.createObjectStore('session');
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  return opened;
}

const done = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

async function inStore<T>(name: string, mode: IDBTransactionMode, work: (store: IDBObjectStore) => IDBRequest<T>) {
  const base = await openDatabase();
  return done(work(base.transaction(name, mode).objectStore(name)));
}

export const saveFile = (id: string, file: Blob): Promise<unknown> =>
  inStore('files', 'readwrite', (store) => store.put(file, id));

export const loadFile = (id: string): Promise<Blob | undefined> =>
  inStore<Blob | undefined>('files', 'readonly', (store) => store.get(id));

/** Under which the last opened file is kept. */
export const openedId = 'opened file';

interface Session {
  readonly document: Document;
  readonly settings: {
    readonly scheme: Scheme;
    readonly margin: boolean;
    readonly step: ReturnType<typeof getState>['step'];
  };
}

/** Brings back what the last visit left; true where there was something. */
export async function restore(): Promise<boolean> {
  try {
    const session = await inStore<Session | undefined>('session', 'readonly', (store) => store.get('now'));
    if (!session) return false;
    for (const scan of session.document.scans) {
      const file = await loadFile(scan.id);
      if (file) keepBlob(scan.id, file);
    }
    // Fields that a later version added take their resting values.
    const document = { ...emptyDocument, ...session.document, view: { ...restingView, ...session.document.view } };
    setState({ history: historyOf(document), ...session.settings });
    return document.scans.length > 0;
  } catch {
    notify(
      'This browser does not let the page keep anything (a private window?); save your work to a file before closing.',
    );
    return false;
  }
}

/** Saves the session shortly after every act, and when the page is left. */
export function keepSaving(): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const save = (): void => {
    clearTimeout(timer);
    const { history, scheme, margin, step } = getState();
    const session: Session = { document: history.present, settings: { scheme, margin, step } };
    inStore('session', 'readwrite', (store) => store.put(session, 'now')).catch(() =>
      notify('The last change could not be kept in this browser; save your work to a file.'),
    );
  };
  const unsubscribe = useStore.subscribe((state, before) => {
    const same =
      state.history.present === before.history.present &&
      state.scheme === before.scheme &&
      state.margin === before.margin &&
      state.step === before.step;
    if (same || !state.restored) return;
    clearTimeout(timer);
    timer = setTimeout(save, 250);
  });
  addEventListener('pagehide', save);
  return () => {
    unsubscribe();
    removeEventListener('pagehide', save);
  };
}

/** Removes files that no scan names any more. */
export async function sweepFiles(): Promise<void> {
  const ids = new Set(getState().history.present.scans.map((scan) => scan.id));
  const keys = await inStore('files', 'readonly', (store) => store.getAllKeys());
  for (const key of keys)
    if (!ids.has(String(key)) && key !== openedId) await inStore('files', 'readwrite', (store) => store.delete(key));
}
