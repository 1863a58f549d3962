import { createHash } from 'node:crypto';
import type { BrowserContext, Page } from 'playwright-core';
import type { Random } from '../../../src/core/geometry/index.ts';

export const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

interface ScanHeld {
  readonly id: string;
  readonly name: string;
  readonly title: string;
}

/** What the browser's store holds, read beside the app: of each session its scans, of each file the digest of its bytes. */
export interface Held {
  readonly sessions: Readonly<Record<string, readonly ScanHeld[]>>;
  /** By "session scan"; a file whose bytes cannot be read is "torn". */
  readonly files: Readonly<Record<string, string>>;
}

/** Reads the store on a page of the same origin that is not the app. */
export async function heldIn(page: Page, url: string): Promise<Held> {
  await page.goto(`${url}samples/samples.json`);
  return page.evaluate(async () => {
    const done = <T>(request: IDBRequest<T>): Promise<T> =>
      new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const opening = indexedDB.open('ectype');
    // Where there is none, none is made.
    opening.onupgradeneeded = () => opening.transaction?.abort();
    const base = await done(opening).catch(() => null);
    if (!base) return { sessions: {}, files: {} };
    const sessions: Record<string, ScanHeld[]> = {};
    const files: Record<string, string> = {};
    for (const key of await done(base.transaction('sessions').objectStore('sessions').getAllKeys())) {
      const stored = await done(base.transaction('sessions').objectStore('sessions').get(key));
      const scans = stored.session.document.scans as ScanHeld[];
      sessions[String(key)] = scans.map(({ id, name, title }) => ({ id, name, title }));
    }
    for (const key of await done(base.transaction('files').objectStore('files').getAllKeys())) {
      const file = (await done(base.transaction('files').objectStore('files').get(key))) as Blob;
      files[String(key)] = await file
        .arrayBuffer()
        .then((bytes) => crypto.subtle.digest('SHA-256', bytes))
        .then((digest) => Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join(''))
        .catch(() => 'torn');
    }
    base.close();
    return { sessions, files };
  });
}

/** What the store has said to be kept: transactions that were completed before the kill. */
export interface Kept {
  /** Key of the file. */
  readonly files: string[];
  /** Names of the scans of the newest session that was kept, by session. */
  readonly sessions: Map<string, string[]>;
}

/** Listens in every page of the context to what is written and completed. */
export async function listening(context: BrowserContext, sessions = new Map<string, string[]>()): Promise<Kept> {
  const kept: Kept = { files: [], sessions };
  await context.exposeBinding('ectypeKept', (_, store: string, key: string, names: string[]) => {
    if (store === 'files') kept.files.push(key);
    else kept.sessions.set(key, names);
  });
  await context.addInitScript(() => {
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (value, key) {
      const names =
        this.name === 'sessions' ? value.session.document.scans.map(({ name }: { name: string }) => name) : [];
      const tell = (window as unknown as { ectypeKept(...said: unknown[]): void }).ectypeKept;
      this.transaction.addEventListener('complete', () => tell(this.name, key, names));
      return put.call(this, value, key);
    };
  });
  return kept;
}

/** A file that is kept like any scan and refused by its reader at once: its bytes are chance, its name tells its digest. */
export function chanceFile(random: Random, bytes: number): { name: string; mimeType: string; buffer: Buffer } {
  const buffer = Buffer.alloc(bytes);
  for (let at = 0; at + 4 <= bytes; at += 4) buffer.writeUInt32LE(random.below(2 ** 32), at);
  return { name: `${sha256(buffer).slice(0, 16)}.ply`, mimeType: 'application/octet-stream', buffer };
}

const ofChance = /^[0-9a-f]{16}\.ply$/;

export async function bring(page: Page, files: ReturnType<typeof chanceFile>[]): Promise<void> {
  await page.getByRole('button', { name: /bring in$/i }).click();
  await page.getByLabel('Scan files').setInputFiles(files);
}

/** In words, what of the store is torn or lost; nothing where all stands. */
export function troublesOf(held: Held, kept: Pick<Kept, 'files' | 'sessions'>): string[] {
  const out: string[] = [];
  for (const [key, digest] of Object.entries(held.files)) if (digest === 'torn') out.push(`${key} is torn`);
  for (const key of kept.files) if (!(key in held.files)) out.push(`${key} was kept and is lost`);
  for (const [session, names] of kept.sessions) {
    const now = held.sessions[session]?.map(({ name }) => name);
    for (const name of names) if (!now?.includes(name)) out.push(`${name} was in the session and is lost`);
  }
  for (const [session, scans] of Object.entries(held.sessions))
    for (const { id, name } of scans) {
      // Scans of an opened comparison have no bytes of their own.
      if (!ofChance.test(name)) continue;
      const digest = held.files[`${session} ${id}`];
      if (digest === undefined) out.push(`${name} is named by its session and not there`);
      else if (!digest.startsWith(name.replace('.ply', ''))) out.push(`${name} has other bytes`);
    }
  return out;
}
