import { appendFileSync } from 'node:fs';
import { type PairEvidence, pairEvidence } from '../../../src/core/judge/gates.ts';
import { fitBestFaces, type PreparedScan, prepareScan } from '../../../src/core/pipeline.ts';
import { ScanError, type Unit } from '../../../src/core/scan/index.ts';
import { makePair, recipeAt } from '../../populations/index.ts';
import { rowsFile } from './rowsFile.ts';

/** A pair whose answer is known, as files. */
export interface KnownPair {
  readonly relation: string;
  /** How far a copy by hand is out of place. */
  readonly displacementUm?: number;
  /** Share of the reference's image that the subject has, 0 to 1. */
  readonly imageLeft: number;
  readonly reference: KnownScan;
  readonly subject: KnownScan;
}

interface KnownScan {
  readonly bytes: Uint8Array;
  readonly unit?: Unit;
}

const columns = [
  ...['seed', 'relation', 'um', 'imageLeft', 'found', 'log10Chance', 'significance'],
  ...['score', 'least', 'most', 'finding', 'failedGates', 'commit'],
];

/** A pair of the second generator, by its recipe. */
export function secondPair(seed: number): KnownPair {
  const { reference, subject, truth } = makePair(seed, recipeAt(seed));
  const unit = truth.unit === 'um' ? undefined : truth.unit;
  return {
    ...truth,
    displacementUm: truth.displacementUm ?? undefined,
    reference: { ...reference, unit },
    subject: { ...subject, unit },
  };
}

/**
 * `npm run bench -- scored FROM COUNT FILE`, `scored1` likewise: pairs of the second generator, or the first, each scored once by the method as
 * it stands, a line each appended to FILE (docs/populations.md). What FILE has already is not scored again.
 */
export async function scored(
  from: number,
  count: number,
  file: string,
  say: (line: string) => void,
  pairOf: (seed: number) => KnownPair = secondPair,
): Promise<void> {
  const { commit, done } = rowsFile(file, columns);
  for (let seed = from; seed < from + count; seed++) {
    if (done.has(String(seed))) continue;
    const line = `${[seed, await rowOf(pairOf(seed)), commit].join(',')}`;
    appendFileSync(file, `${line}\n`);
    say(line);
  }
}

async function rowOf({ relation, displacementUm, imageLeft, reference, subject }: KnownPair): Promise<string> {
  const scan = ({ bytes, unit }: KnownScan, name: string): Promise<PreparedScan> =>
    prepareScan({ name, bytes, unit, sha256: () => '' });
  const made = [relation, displacementUm?.toFixed(1) ?? '', imageLeft.toFixed(2)];
  const scans = await Promise.all([scan(reference, 'reference.ply'), scan(subject, 'subject.ply')]).catch(noFace);
  if (!scans) return [...made, 0, '', '', '', '', '', 'undecided', 'noFace'].join(',');
  const { fit, cut } = fitBestFaces(...scans);
  const { finding, weighed, gates } = pairEvidence(cut.reference.face, cut.subject.face, fit);
  return [
    ...made,
    ...[fit.found ? 1 : 0, fit.chance.log10P.toFixed(1), fit.significance.toFixed(1)],
    ...[weighed?.score, weighed?.interval[0], weighed?.interval[1]].map((value) => value?.toFixed(2) ?? ''),
    ...[finding, finding === 'undecided' ? failed(gates) : ''],
  ].join(',');
}

/** A pair of which one scan shows no face is not decided. */
function noFace(error: unknown): null {
  if (error instanceof ScanError && error.code === 'noFace') return null;
  throw error;
}

/** Gates that were not passed, by group and code, of a pair that was not decided. */
const failed = (gates: PairEvidence['gates']): string =>
  gates
    .filter(({ passed }) => !passed)
    .map(({ group, code, value }) => `${group[0]}:${code}=${value.toFixed(2)}`)
    .join(' ');
