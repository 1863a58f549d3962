import type { PreparedScan } from '../../../core/pipeline.ts';
import type { Store } from '../../../store/database/open.ts';
import { getFile } from '../../../store/files.ts';
import { unpackFace } from '../../../store/keptFace.ts';
import { SearchTable } from '../../../store/search.ts';
import type { VerifiedPair } from '../../../store/verifiedPair.ts';
import { tools } from '../../collection/tools.ts';
import { sha256 } from '../../output/filesList.ts';

/** Compares two kept faces, the candidate first. */
export type Verify = (candidate: Uint8Array, query: Uint8Array) => Promise<VerifiedPair>;

/** Faces that were searched for and may still be verified. */
const mostQueries = 16;

/** Searches of a served collection: a face comes in as it would be kept, never as a scan. */
export class Searching {
  private readonly store: Store;
  private readonly verify: Verify;
  private readonly table: SearchTable;
  private readonly queries = new Map<string, Uint8Array>();

  constructor(store: Store, verify: Verify) {
    this.store = store;
    this.verify = verify;
    this.table = new SearchTable(store, tools.search);
  }

  /** Candidates for a face, best first, and the name under which they can be verified; null where the bytes are no face. */
  async find(packed: Uint8Array) {
    const prepared = readable(packed);
    if (!prepared) return null;
    const query = sha256(packed);
    this.keep(query, packed);
    const found = await this.table.candidates(tools.search.index(prepared.face));
    const same = await this.store.db
      .selectFrom('faces')
      .select('scan_id')
      .where('source', '=', prepared.scan.sha256)
      .execute();
    // The very file that is asked with answers nothing.
    const candidates = found.filter(({ id }) => !same.some(({ scan_id }) => scan_id === id));
    return {
      query,
      itself: same.map(({ scan_id }) => scan_id),
      candidates: candidates.map(({ id, ...candidate }) => ({ scan: id, ...candidate })),
    };
  }

  /** A candidate compared with what was searched for; null where either is gone. */
  async verified(query: string, scan: number): Promise<VerifiedPair | null> {
    const packed = this.queries.get(query);
    const kept = await this.keptFace(scan);
    return packed && kept ? this.verify(kept, packed) : null;
  }

  /** Two scans of the collection compared, since a person asks for it; nothing of it is kept. */
  async compared(a: number, b: number): Promise<VerifiedPair | null> {
    const [one, other] = [await this.keptFace(a), await this.keptFace(b)];
    return one && other ? this.verify(one, other) : null;
  }

  private async keptFace(scan: number): Promise<Uint8Array | null> {
    const { db, folder } = this.store;
    const face = await db.selectFrom('faces').select('relief').where('scan_id', '=', scan).executeTakeFirst();
    return face ? getFile(folder, 'relief', face.relief) : null;
  }

  private keep(query: string, packed: Uint8Array): void {
    this.queries.delete(query);
    this.queries.set(query, packed);
    for (const oldest of this.queries.keys()) {
      if (this.queries.size <= mostQueries) return;
      this.queries.delete(oldest);
    }
  }
}

function readable(packed: Uint8Array): PreparedScan | null {
  try {
    return unpackFace(packed);
  } catch {
    return null;
  }
}
