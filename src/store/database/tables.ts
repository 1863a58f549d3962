import type { ColumnType, Generated, Kysely, Transaction } from 'kysely';

/** What one scan's preparation has come to. */
export type ScanState = 'waiting' | 'ready' | 'failed';

/** A scan of the catalogue: what the manifest states, and how far it has come. */
export interface ScansTable {
  id: Generated<number>;
  /** The file's whole path: one scan is one file. */
  path: string;
  /** Length and time of change of the file when it was catalogued: whether it has to be prepared again. */
  stamp: string;
  shelfmark: string;
  kind: string;
  seal: string | null;
  side: string | null;
  material: string | null;
  unit: string | null;
  scale_uncertainty: number | null;
  instrument: string | null;
  document_date: string | null;
  cast_of: string | null;
  sides_of: string | null;
  scan_of: string | null;
  state: ScanState;
  /** One sentence where the scan cannot be used. */
  error: string | null;
}

/** What was prepared of a scan; files by their SHA-256. */
export interface FacesTable {
  scan_id: number;
  /** SHA-256 of the scan file that was prepared. */
  source: string;
  relief: string;
  picture: string;
  local: string;
  /** SQLite gives a buffer, PostgreSQL bytes: `new Uint8Array` takes either. */
  global: ColumnType<Uint8Array | ArrayBuffer, Uint8Array, Uint8Array>;
  index_version: number;
  sense: string;
  width_mm: number;
  height_mm: number;
  /** Area of the image that is there, mm². */
  image_mm2: number;
  /** When, ms since 1970 by the database's clock. */
  prepared_at: number;
}

/** What a search put forward for a scan. */
export interface CandidatesTable {
  scan_id: number;
  other_id: number;
  place: number;
  score: number;
  /** 1 where it is worth a verification. */
  likely: number;
  /** JSON of why. */
  why: string;
}

/** A verified pair, `a_id` < `b_id`. */
export interface LinksTable {
  a_id: number;
  b_id: number;
  finding: string;
  question: string | null;
  strength: string;
  /** Null where no fit was found. */
  score: number | null;
  descent: string | null;
  /** How b stands to a in state. */
  state: string;
  /** Share of the image that is left of each, 0 to 1; null where it is not known. */
  image_left_a: number | null;
  image_left_b: number | null;
  /** Version and build of the tool that verified it. */
  by_tool: string;
  /** Where letters and ornaments lie against one another, as `packPlaces` writes it; null where too few are seen on both. */
  places: string | null;
  /** 0 while descent and state are still to be read from the surfaces: the finding is known first. */
  surfaces_read: ColumnType<number, number | undefined, number>;
}

/** What is known of two scans without comparing them. */
export interface KnownTable {
  a_id: number;
  b_id: number;
  relation: 'castOf' | 'sidesOf' | 'scansOf';
}

/** What a person decided. */
export interface DecisionsTable {
  id: Generated<number>;
  kind: 'join' | 'split' | 'name' | 'note';
  /** JSON: ids of scans. */
  members: string;
  by_whom: string;
  at: string;
  words: string;
}

/** A scan that a person took out of the collection. */
export interface RemovalsTable {
  id: Generated<number>;
  path: string;
  shelfmark: string;
  by_whom: string;
  at: string;
  words: string;
}

export type JobKind = 'prepare' | 'search' | 'verify';
export type JobState = 'waiting' | 'taken' | 'done' | 'failed';

export interface JobsTable {
  id: Generated<number>;
  kind: JobKind;
  /** Scan, or scan and other for a verification; `b_id` is 0 where there is none. */
  a_id: number;
  b_id: number;
  state: JobState;
  /** How often it was taken. */
  tries: ColumnType<number, number | undefined, number>;
  /** Who holds it, until when (ms since 1970). */
  worker: string | null;
  lease_until: number | null;
  error: string | null;
  /** 1 where it waits until all others of its kind are done. */
  behind: ColumnType<number, number | undefined, number>;
}

export interface Tables {
  scans: ScansTable;
  faces: FacesTable;
  candidates: CandidatesTable;
  links: LinksTable;
  known: KnownTable;
  decisions: DecisionsTable;
  removals: RemovalsTable;
  jobs: JobsTable;
}

/** A database, or a transaction on it. */
export type Db = Kysely<Tables> | Transaction<Tables>;
