import type { Pictured } from '../../src/app/saved/unpack.ts';
import { storedPicture } from '../../src/workers/browser/storedPicture.ts';

/** Pictures made at once, as in a page without a worker. */
export const pictured: Pictured = async (relief) => ({ ok: true, value: storedPicture(relief) });
