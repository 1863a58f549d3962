import { closeSync, openSync, readFileSync, renameSync, rmSync, statSync, writeSync } from 'node:fs';
import { hostname } from 'node:os';
import { OutputError } from './errors.ts';

/** Who writes to a place, as its lock file says; who holds a job of a collection. */
export interface Holder {
  readonly pid: number;
  readonly host: string;
  /** When the process began, in ticks since the computer did; tells a later process of the same number. */
  readonly began: string | null;
}

/** A lock that is older is nobody's: writing takes seconds. */
const staleAfterMs = 24 * 3600 * 1000;

/** A lock without a holder in it is just being made, which takes microseconds, or its run was killed as it made it. */
const beingMadeMs = 2_000;

/** Between two looks at it, ms. */
const betweenMs = 20;

export const thisProcess = (): Holder => ({ pid: process.pid, host: hostname(), began: beganOf(process.pid) });

/** Field 22 of /proc/PID/stat, after the name in brackets; null where the system has no such file. */
function beganOf(pid: number): string | null {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'latin1');
    return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19] ?? null;
  } catch {
    return null;
  }
}

/**
 * Takes the lock file `path` for writing to `place`; the function that comes back gives it up. A lock whose process on
 * this computer is gone, that is older than a day, or that still names nobody after two seconds, is taken over. Throws
 * OutputError where another run holds it.
 */
export function takeLock(path: string, place: string): () => void {
  for (let tries = 0; tries < 5; tries++) {
    if (create(path)) return () => rmSync(path, { force: true });
    const text = onceMade(path);
    if (text !== null && isHeld(path, text)) throw heldBy(path, place, text);
    if (text !== null) takeAway(path, text);
  }
  throw new OutputError(`${place}: other runs are writing there; try again, or give another place.`);
}

/** Refuses early what `takeLock` would refuse. */
export function refuseHeld(path: string, place: string): void {
  const text = readText(path);
  if (text !== null && isHeld(path, text)) throw heldBy(path, place, text);
}

function create(path: string): boolean {
  let file: number;
  try {
    file = openSync(path, 'wx');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
  try {
    writeSync(file, JSON.stringify(thisProcess()));
  } catch (error) {
    rmSync(path, { force: true });
    throw error;
  } finally {
    closeSync(file);
  }
  return true;
}

/** What the lock says, as soon as its maker is named in it, if it ever is; null where it is gone. */
function onceMade(path: string): string | null {
  const end = performance.now() + beingMadeMs;
  for (;;) {
    const text = readText(path);
    if (text === null || holderIn(text) || performance.now() > end) return text;
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, betweenMs);
  }
}

function readText(path: string): string | null {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return null;
  }
}

function holderIn(text: string): Holder | null {
  try {
    const { pid, host, began } = JSON.parse(text) as Holder;
    return Number.isInteger(pid) && typeof host === 'string' ? { pid, host, began } : null;
  } catch {
    return null;
  }
}

function isHeld(path: string, text: string): boolean {
  const holder = holderIn(text);
  if (!holder) return false;
  const age = Date.now() - (statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0);
  return age <= staleAfterMs && isProcessAlive(holder);
}

/** Whether a process still runs; one of another computer may. */
export function isProcessAlive({ pid, host, began }: Holder): boolean {
  if (host !== hostname()) return true;
  try {
    process.kill(pid, 0);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ESRCH') return false;
  }
  return began === null || began === beganOf(pid);
}

/** Moves a stale lock away; one that another run has just taken goes back to its place. */
function takeAway(path: string, stale: string): void {
  const aside = path.replace(/\.lock$/, `-${process.pid}.lock`);
  try {
    renameSync(path, aside);
    if (readText(aside) === stale) rmSync(aside, { force: true });
    else renameSync(aside, path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
  }
}

const heldBy = (path: string, place: string, text: string): OutputError => {
  const { pid, host } = holderIn(text) as Holder;
  return new OutputError(
    `${place}: process ${pid} on ${host} is writing there; wait for it, or remove ${path} if that run is dead.`,
  );
};
