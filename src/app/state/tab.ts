import { newId } from './newId.ts';

/** Which session this tab works on: its name lies in the tab itself, and a lock says that it is in use. */
const named = 'ectype session';
const lockOf = (session: string): string => `ectype ${session}`;

/** A reload may ask before the old page has let go. */
const patienceMs = 2_000;

let here = '';
export const sessionHere = (): string => here;

/**
 * Takes the session of this tab, or a new one: in a new tab, or where another tab holds it (a tab that was duplicated takes
 * its session's name along). True where it is the one from before.
 */
export async function takeSession(): Promise<boolean> {
  const before = remembered();
  const kept = before !== null && (await locked(before, patienceMs));
  here = kept ? before : newId();
  if (!kept) await locked(here, patienceMs);
  remember(here);
  return kept;
}

/** The next start begins with a new session, or with the given one. */
export function turnTo(session: string | null): void {
  try {
    if (session === null) sessionStorage.removeItem(named);
    else sessionStorage.setItem(named, session);
  } catch {
    // Where the browser keeps nothing there is nothing to turn to.
  }
}

/** Takes another session's name for what comes, after this one turned out to be unusable. */
export async function leaveSession(): Promise<void> {
  here = newId();
  await locked(here, patienceMs);
  remember(here);
}

/** Sessions that some tab works on; null where the browser cannot tell. */
export async function liveSessions(): Promise<ReadonlySet<string> | null> {
  const state = await navigator.locks?.query().catch(() => null);
  if (!state) return null;
  return new Set(
    [...(state.held ?? []), ...(state.pending ?? [])].flatMap(({ name }) => name?.replace(/^ectype /, '') ?? []),
  );
}

/** Held until the page ends. True also where the browser has no locks: then only the tab's own name tells. */
async function locked(session: string, waitMs: number): Promise<boolean> {
  if (!navigator.locks) return true;
  return new Promise((resolve) => {
    navigator.locks
      .request(lockOf(session), { signal: AbortSignal.timeout(waitMs) }, () => {
        resolve(true);
        return new Promise(() => undefined);
      })
      .catch(() => resolve(false));
  });
}

function remembered(): string | null {
  try {
    return sessionStorage.getItem(named);
  } catch {
    return null;
  }
}

function remember(session: string): void {
  turnTo(session);
}
