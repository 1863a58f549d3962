import { Refusal } from '../admission/admit.ts';
import { admitSession, type KeptSession, sessionSchema } from '../admission/session.ts';
import { browserStore, earlierSession, type StoredSession, storeTrouble } from './browserStore.ts';
import { keepBlob } from './bytes.ts';
import { onlyOpening } from './document.ts';
import { saveText } from './download.ts';
import { historyOf } from './history.ts';
import { getState, notify, setState, useStore } from './store.ts';
import { leaveSession, liveSessions, sessionHere, takeSession } from './tab.ts';

/** Sessions that no tab works on are kept so long. */
const keptDays = 30;

const nameOf = (id: string, session = sessionHere()): string => `${session} ${id}`;

/** Writes that are on the way, files first of all. A session is kept only after them, so that it never names bytes that are not there. */
let onTheWay: Promise<unknown> = Promise.resolve();

/** What is to be kept before the next session. A write that fails is said by who asked for it, and holds nothing up. */
export function keptFirst<T>(write: Promise<T>): Promise<T> {
  onTheWay = Promise.allSettled([onTheWay, write]);
  return write;
}

export const saveFile = (id: string, file: Blob): Promise<void> => keptFirst(fileSaved(nameOf(id), file));

/** Done when the bytes are on the disk, not only asked for. */
async function fileSaved(key: string, file: Blob): Promise<void> {
  const write = (await browserStore()).transaction('files', 'readwrite', { durability: 'strict' });
  await Promise.all([write.store.put(file, key), write.done]);
}

export const loadFile = async (id: string): Promise<Blob | undefined> =>
  (await browserStore()).get('files', nameOf(id));

/** Under which the last opened file is kept. */
export const openedId = 'opened file';

/**
 * Brings back what this tab had before; true where there was something. Never throws: the page starts in any case. What
 * cannot be read now may be readable later, so that the page then goes on under another name and writes over nothing.
 */
export async function restore(): Promise<boolean> {
  try {
    await takeSession();
    const stored = await (await browserStore()).get('sessions', sessionHere());
    return stored ? await laidOut(stored.session) : false;
  } catch (error) {
    sayOnce(error);
    await leaveSession().catch(() => undefined);
    return false;
  }
}

async function laidOut(stored: unknown): Promise<boolean> {
  try {
    const { document, settings } = admitSession(stored);
    const { step: opened } = getState();
    for (const scan of document.scans) {
      // One file that cannot be read costs itself and not the session.
      const file = await loadFile(scan.id).catch(() => undefined);
      if (file instanceof Blob) keepBlob(scan.id, file);
    }
    // Who went to another room while the files were read stays there.
    const { step: now } = getState();
    setState({ history: historyOf(document), ...settings, ...(now !== opened && { step: now }) });
    return document.scans.length > 0;
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const old = sessionHere();
    await setAside(old);
    await leaveSession();
    notify(`${error.message} It is set aside, and the page begins anew.`, {
      words: 'save the old session to a file',
      run: () => void saveSession(old),
    });
    return false;
  }
}

/** Each trouble of the store is said once, not after every act. */
const said = new Set<string>();

function sayOnce(error: unknown): void {
  const words = storeTrouble(error);
  if (!said.has(words)) notify(words);
  said.add(words);
}

/** Those are not saved over any more. */
const aside = new Set<string>();

/** Marks a session so that it is not offered again; it stays until it is old. */
export async function setAside(session: string): Promise<void> {
  aside.add(session);
  const base = await browserStore();
  const stored = await base.get('sessions', session);
  if (stored) await base.put('sessions', { ...stored, troubled: true }, session);
}

/** Hands a session to the user as it lies in the store, whatever it is. */
export async function saveSession(session: string): Promise<void> {
  const stored = await (await browserStore()).get('sessions', session);
  saveText(JSON.stringify(stored?.session ?? null, null, 1), 'ectype-session.json');
}

async function sessionSaved(): Promise<void> {
  const { history, scheme, margin, step } = getState();
  const session: KeptSession = { schema: sessionSchema, document: history.present, settings: { scheme, margin, step } };
  await (await browserStore()).put('sessions', { at: Date.now(), troubled: false, session }, sessionHere());
}

/** Saves the session shortly after every act, behind the files that the act brought; at once when the page is left. */
export function keepSaving(): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const save = (): void => {
    clearTimeout(timer);
    if (!aside.has(sessionHere())) void sessionSaved().catch(sayOnce);
  };
  const saveInTurn = (): void => void onTheWay.then(save);
  const unsubscribe = useStore.subscribe((state, before) => {
    const same =
      state.history.present === before.history.present &&
      state.scheme === before.scheme &&
      state.margin === before.margin &&
      state.step === before.step;
    if (same || !state.restored) return;
    clearTimeout(timer);
    timer = setTimeout(saveInTurn, 250);
  });
  addEventListener('pagehide', save);
  return () => {
    unsubscribe();
    removeEventListener('pagehide', save);
  };
}

/**
 * Removes this tab's files that no scan names any more, and sessions that no tab works on and that are old; of the rest, the
 * youngest that holds work can be gone on with. A session that some tab holds is never touched.
 */
export async function sweep(now = Date.now()): Promise<void> {
  const base = await browserStore();
  // In this order: a tab takes its lock, then keeps files, then its session. What is seen of the first is known by what is looked at after.
  const own = new Set([openedId, ...getState().history.present.scans.map(({ id }) => id)]);
  const keys = await base.getAllKeys('files');
  const live = await liveSessions();
  const sessions = new Map<string, StoredSession>();
  for (const key of await base.getAllKeys('sessions')) {
    const stored = await base.get('sessions', key);
    if (stored) sessions.set(key, stored);
  }
  const dead = [...sessions].filter(([name]) => name !== sessionHere() && !live?.has(name));
  const old = new Set(dead.flatMap(([name, { at }]) => (now - at > keptDays * 86_400_000 ? [name] : [])));
  for (const name of old) await base.delete('sessions', name);
  for (const key of keys) {
    const [session, id] = [key.slice(0, key.indexOf(' ')), key.slice(key.indexOf(' ') + 1)];
    const lost =
      session === sessionHere() ? !own.has(id) : !live?.has(session) && (old.has(session) || !sessions.has(session));
    if (lost && (live || old.has(session) || session === sessionHere())) await base.delete('files', key);
  }
  const left = dead.filter(([name, { troubled }]) => !troubled && !old.has(name) && (live || name === earlierSession));
  const youngest = left.sort(([, a], [, b]) => b.at - a.at).find(([, { session }]) => holdsWork(session));
  setState({ left: youngest ? { session: youngest[0], at: youngest[1].at } : null });
}

/** More than an empty plate, or than what the page lays out itself: those would hide work of an older tab. */
function holdsWork(session: unknown): boolean {
  try {
    const { document } = admitSession(session);
    return document.scans.length > 0 && !onlyOpening(document);
  } catch {
    // It cannot be let in; going on with it says so and offers it as a file.
    return true;
  }
}
