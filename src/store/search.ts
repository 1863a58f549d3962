import type { Face } from '../core/face/index.ts';
import type { Store } from './database/open.ts';
import { getFile } from './files.ts';

/** What is kept of a face for search: the first in memory, the second on disk. */
export interface FaceIndex {
  readonly version: number;
  readonly global: Uint8Array;
  readonly local: Uint8Array;
}

/** One face put forward. */
export interface Found {
  /** Place in the table that was searched. */
  readonly index: number;
  readonly score: number;
  /** Whether it is worth a verification. */
  readonly likely: boolean;
  /** Why, as plain data. */
  readonly why: object;
}

/** The index of faces that a collection is searched by. */
export interface FaceSearch {
  readonly version: number;
  index(face: Face): FaceIndex;
  /** The best `want` faces of a table of global forms, one after another; `localOf` gives the local form of a place in it. */
  find(
    query: FaceIndex,
    table: { readonly count: number; readonly bytes: Uint8Array },
    localOf: (place: number) => Uint8Array,
    want: number,
  ): readonly Found[];
}

export const searchDefaults = {
  /** Candidates that a search puts forward. */
  want: 20,
};

/** One candidate of a collection. */
export interface Candidate extends Omit<Found, 'index'> {
  readonly id: number;
}

/** The faces of a collection in memory; read again where some were prepared since. */
export class SearchTable {
  private readonly store: Store;
  private readonly search: FaceSearch;
  private stamp = '';
  private ids: number[] = [];
  private locals: string[] = [];
  private bytes = new Uint8Array();

  constructor(store: Store, search: FaceSearch) {
    this.store = store;
    this.search = search;
  }

  /** The best candidates for a face, best first, other than the scan `but`. */
  async candidates(query: FaceIndex, but?: number, want = searchDefaults.want): Promise<Candidate[]> {
    await this.refresh();
    const localOf = (place: number): Uint8Array => getFile(this.store.folder, 'local', this.locals[place]);
    const table = { count: this.ids.length, bytes: this.bytes };
    return this.search
      .find(query, table, localOf, but === undefined ? want : want + 1)
      .map(({ index, ...found }) => ({ ...found, id: this.ids[index] }))
      .filter(({ id }) => id !== but)
      .slice(0, want);
  }

  private async refresh(): Promise<void> {
    const { db } = this.store;
    const ofVersion = db.selectFrom('faces').where('index_version', '=', this.search.version);
    const { count, last } = await ofVersion
      .select(({ fn }) => [fn.countAll().as('count'), fn.max('prepared_at').as('last')])
      .executeTakeFirstOrThrow();
    const stamp = `${count} ${last}`;
    if (stamp === this.stamp) return;
    const rows = await ofVersion.select(['scan_id', 'local', 'global']).orderBy('scan_id').execute();
    const globals = rows.map(({ global }) => new Uint8Array(global));
    const each = globals[0]?.length ?? 0;
    this.bytes = new Uint8Array(rows.length * each);
    for (const [k, global] of globals.entries()) this.bytes.set(global, k * each);
    this.ids = rows.map(({ scan_id }) => scan_id);
    this.locals = rows.map(({ local }) => local);
    this.stamp = stamp;
  }
}
