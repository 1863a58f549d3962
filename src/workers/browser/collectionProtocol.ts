import type { Answer, FaceView, ScanOrder, Told } from './protocol.ts';

/** A scan read for a search: what is shown of it, and its face as a collection would keep it. */
export interface Query {
  readonly view: FaceView;
  readonly packed: Uint8Array<ArrayBuffer>;
}

/** What the worker does for the rooms of a collection. */
export interface CollectionServices {
  /** A kept face as the plate shows it. */
  face(key: string, packed: Uint8Array): Promise<Answer<FaceView>>;
  /** Reads a scan and finds its face. The scan itself stays here. */
  query(order: ScanOrder, told: Told): Promise<Answer<Query>>;
}
