import { appendFileSync } from 'node:fs';
import { type PairEvidence, pairEvidence } from '../../../src/core/judge/gates.ts';
import { fitBestFaces, type PreparedScan, prepareScan } from '../../../src/core/pipeline.ts';
import { ScanError } from '../../../src/core/scan/index.ts';
import { makePair, recipeAt } from '../../populations/index.ts';
import { rowsFile } from './rowsFile.ts';

const columns = [
  ...['seed', 'relation', 'um', 'imageLeft', 'found', 'log10Chance', 'significance'],
  ...['score', 'least', 'most', 'finding', 'failedGates', 'commit'],
];

/**
 * `npm run bench -- scored FROM COUNT FILE`: recipes of the second generator, each scored once by the method as it stands, a line
 * each appended to FILE (docs/populations.md). What FILE has already is not scored again.
 */
export async function scored(from: number, count: number, file: string, say: (line: string) => void): Promise<void> {
  const { commit, done } = rowsFile(file, columns);
  for (let seed = from; seed < from + count; seed++) {
    if (done.has(String(seed))) continue;
    const line = `${await rowOf(seed)},${commit}`;
    appendFileSync(file, `${line}\n`);
    say(line);
  }
}

async function rowOf(seed: number): Promise<string> {
  const { reference, subject, truth } = makePair(seed, recipeAt(seed));
  const scan = ({ bytes }: typeof reference, name: string): Promise<PreparedScan> =>
    prepareScan({ name, bytes, unit: truth.unit === 'um' ? undefined : truth.unit, sha256: () => '' });
  const made = [seed, truth.relation, truth.displacementUm?.toFixed(1) ?? '', truth.imageLeft.toFixed(2)];
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
