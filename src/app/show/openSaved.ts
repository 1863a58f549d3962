import type { Brought } from '../state/scans.ts';

/** Opens a saved comparison; false where the file is an ordinary scan. */
export async function openSaved(_brought: Brought | undefined): Promise<boolean> {
  return false;
}
