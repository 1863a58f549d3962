import { matrixEdge, type SizedShape } from '../../src/core/face/index.ts';
import {
  judgeMeasured,
  measureWeighed,
  type PreparedScan,
  prepareScan,
  weighPrepared,
} from '../../src/core/pipeline.ts';
import { ScanError } from '../../src/core/scan/index.ts';
import { type MadePair, makePair, recipeAt } from '../populations/index.ts';

/** The long side that is told of an object's image, mm, against the one that was made, and whether the shape is right. */
interface Told {
  readonly seed: number;
  readonly kind: string;
  /** Of a supported pair, or of one scan alone. */
  readonly by: 'pair' | 'alone';
  readonly shape: string;
  readonly made: string;
  readonly offMm: number;
}

const names: Readonly<Record<string, string>> = {
  round: 'round',
  oval: 'oval',
  pointed: 'pointedOval',
  shield: 'shield',
};

/**
 * `npm run bench -- image-sizes FROM COUNT`: recipes of the second generator, a matrix and what was pressed with it. Sizes of images as
 * the pair tells them (of what was pressed where one matrix is supported), and of each matrix alone.
 */
export async function imageSizesTold(from: number, count: number, say: (line: string) => void): Promise<void> {
  const rows: Told[] = [];
  for (let seed = from; seed < from + count; seed++) {
    const { relation, question } = recipeAt(seed);
    if (question !== 'negativePositive' || (relation !== 'same' && relation !== 'state')) continue;
    for (const row of await toldOf(seed)) {
      rows.push(row);
      say(Object.values(row).join(','));
    }
  }
  for (const [by, mostMm] of [
    ['pair', 0.3],
    ['alone', 0.5],
  ] as const)
    for (const kind of by === 'pair' ? ['matrix', 'impression'] : ['matrix']) {
      const those = rows.filter((row) => row.by === by && row.kind === kind);
      const right = those.filter(({ offMm, shape, made }) => Math.abs(offMm) <= mostMm && shape === made);
      say(`| ${kind}, ${by}: within ${mostMm} mm and the shape right | ${right.length} of ${those.length} |`);
    }
}

async function toldOf(seed: number): Promise<Told[]> {
  const { reference, subject, truth } = makePair(seed, recipeAt(seed));
  const scan = ({ bytes }: typeof reference, name: string, kind: PreparedScan['kind']): Promise<PreparedScan> =>
    prepareScan({ name, bytes, unit: truth.unit, kind, sha256: () => '' });
  try {
    const pair = [
      await scan(reference, 'reference.ply', truth.kinds.reference),
      await scan(subject, 'subject.ply', truth.kinds.subject),
    ] as const;
    const { images } = judgeMeasured(measureWeighed(weighPrepared(...pair))).judgement;
    return pair.flatMap(({ face, kind }, k) => {
      const row = { seed, kind, made: names[truth.shape] };
      const trueMm = trueLongSide(truth, k);
      const image = images[k];
      return [
        ...(kind === 'matrix' ? [{ ...row, by: 'alone' as const, ...told(matrixEdge(face), trueMm) }] : []),
        ...(image ? [{ ...row, by: 'pair' as const, ...told(image, trueMm) }] : []),
      ];
    });
  } catch (error) {
    if (error instanceof ScanError) return [];
    throw error;
  }
}

const told = ({ shape, widthMm, heightMm }: SizedShape, trueMm: number) => ({
  shape,
  offMm: Math.max(widthMm, heightMm) - trueMm,
});

/** A matrix ends where its plane does; the impression's image is smaller or larger by the true fit's scale. */
function trueLongSide({ sizeMm, edgeMm, scale, kinds }: MadePair['truth'], k: number): number {
  const matrixMm = sizeMm + 2 * Math.max(edgeMm.reference, edgeMm.subject);
  const isMatrix = (k === 0 ? kinds.reference : kinds.subject) === 'matrix';
  if (isMatrix || scale === null) return matrixMm;
  return k === 0 ? matrixMm * scale : matrixMm / scale;
}
