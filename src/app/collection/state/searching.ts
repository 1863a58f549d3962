import { create } from 'zustand';
import type { VerifiedPair } from '../../../store/verifiedPair.ts';
import { collectionServices } from '../../../workers/browser/openCollectionWorker.ts';
import { listener } from '../../../workers/browser/openWorker.ts';
import type { FaceView, Failure, ScanOrder } from '../../../workers/browser/protocol.ts';
import { ask, send } from './ask.ts';

export interface Found {
  readonly scan: number;
  readonly score: number;
  readonly likely: boolean;
  readonly why: {
    readonly inliers?: number;
    readonly areaShare?: number;
    readonly mirrored?: boolean;
    readonly turnDeg?: number;
    readonly turnedOver?: boolean;
    readonly onQuery?: readonly number[];
    readonly onCandidate?: readonly number[];
  };
}

interface Search {
  /** Counts the searches: an answer to an earlier one is left. */
  readonly number: number;
  readonly file: File | null;
  readonly view: FaceView | null;
  readonly doing: string | null;
  /** Why the scan could not be read; its unit may be asked. */
  readonly failure: Failure | null;
  readonly candidates: readonly Found[] | null;
  /** Scans of the collection that are the very file. */
  readonly itself: readonly number[];
  /** By scan; a sentence where it could not be verified. */
  readonly verified: Readonly<Record<number, VerifiedPair | string>>;
  /** The candidate on the plate. */
  readonly shown: number | null;
}

const none: Search = {
  number: 0,
  file: null,
  view: null,
  doing: null,
  failure: null,
  candidates: null,
  itself: [],
  verified: {},
  shown: null,
};

export const useSearch = create<Search>()(() => none);

/** Reads a scan here, looks for its face in the collection, then has each candidate verified, best first. */
export async function searchFor(file: File, stated: ScanOrder['stated'] = {}): Promise<void> {
  const number = useSearch.getState().number + 1;
  const put = (part: Partial<Search>): boolean => {
    const now = useSearch.getState().number === number;
    if (now) useSearch.setState(part);
    return now;
  };
  useSearch.setState({ ...none, number, file, doing: `Reading ${file.name}` });
  location.hash = '#search';
  try {
    const order: ScanOrder = { key: `query-${number}`, name: file.name, file, stated };
    const read = await collectionServices().query(
      order,
      listener((_, doing) => void put({ doing })),
    );
    if (!read.ok) return void put({ failure: read, doing: null });
    if (!put({ view: read.value.view, doing: 'Looking for it in the collection' })) return;
    const { value } = await send<{ query: string; itself: number[]; candidates: Found[] }>(
      'searches',
      read.value.packed,
    );
    const { query, itself, candidates } = value;
    if (!put({ candidates, itself, shown: candidates[0]?.scan ?? null })) return;
    for (const [k, { scan }] of candidates.entries()) {
      if (!put({ doing: `Verifying ${k + 1} of ${candidates.length}` })) return;
      const pair = await verified({ query, scan });
      useSearch.setState((now) => (now.number === number ? { verified: { ...now.verified, [scan]: pair } } : now));
    }
    put({ doing: null });
  } catch (error) {
    put({ doing: null, failure: { ok: false, code: 'unexpected', message: (error as Error).message } });
  }
}

/** A pair compared by the server; a sentence where it could not be. */
export async function verified(order: object): Promise<VerifiedPair | string> {
  try {
    const { status, value } = await send<VerifiedPair & { words?: string }>('verifications', order);
    return status === 200 ? value : (value.words ?? 'It could not be verified.');
  } catch (error) {
    return (error as Error).message;
  }
}

export interface PairTold {
  readonly link: {
    readonly finding: string;
    readonly strength: string;
    readonly score: number | null;
    readonly byTool: string;
  } | null;
  readonly places: { readonly a: readonly number[]; readonly b: readonly number[] } | null;
  readonly turnDeg: number | null;
}

/** What the collection knows of two of its scans. */
export const pairTold = (a: number, b: number): Promise<PairTold> => ask(`pairs/${a}-${b}.json`);
