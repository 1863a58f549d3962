import {
  copyOverMatrix,
  quotient,
  type Range,
  recastOverImpression,
  type SizedObject,
  sizeFromMatrix,
} from './materials.ts';
import { directRange, mostRatioSd, overlaps } from './sizeFavours.ts';
import type { SizeReading, SizeTest } from './types.ts';

/** The numbers of a size test, before anything is said of them. */
type Measured = Omit<SizeTest, 'reading' | 'favours' | 'copyIs'>;

/** What the size ratio says against the chain of materials; see materials.ts for the figures' sources. */
export function sizeReading(size: Measured, reference: SizedObject, subject: SizedObject): readonly SizeReading[] {
  const { ratio, sd } = size;
  const silent = silence(size, reference, subject);
  return [
    { code: 'ratio', ratio, sd, same: Math.abs(ratio - 1) < sd },
    ...(silent ? [silent] : weighed(size, reference, subject)),
    ...unevenness(size),
    depthReading(size),
  ];
}

/** Why size decides nothing, where it does not. */
function silence({ sd }: Measured, reference: SizedObject, subject: SizedObject): SizeReading | null {
  const sides = [['reference', reference] as const, ['subject', subject] as const];
  const assumed = sides.filter(([, { scaleUncertaintyFrom }]) => scaleUncertaintyFrom === 'assumed');
  if (assumed.length > 0)
    return {
      code: 'scaleAssumed',
      whose: assumed.map(([name]) => name),
      percent: assumed[0][1].scaleUncertaintyPercent,
    };
  return sd > mostRatioSd ? { code: 'ratioUncertain' } : null;
}

function weighed(size: Measured, reference: SizedObject, subject: SizedObject): SizeReading[] {
  const range = directRange(reference, subject);
  const agrees = overlaps(size, range);
  return [
    {
      code: 'oneMatrix',
      reference: sizeFromMatrix(reference).end,
      subject: sizeFromMatrix(subject).end,
      range,
      agrees,
    },
    ...rivals(size, reference, subject, agrees),
  ];
}

/** The rivals that concern a matrix; between two positives or two negatives the chain is too loose to name one. */
function rivals(size: Measured, reference: SizedObject, subject: SizedObject, agrees: boolean): SizeReading[] {
  if (reference.sense === subject.sense) return [];
  const upright = subject.sense === 'intaglio';
  const turned = (range: Range): Range => (upright ? range : quotient([1, 1], range));
  const direct = turned(recastOverImpression.direct);
  const throughWax = turned(recastOverImpression.throughWax);
  const positive = sizeFromMatrix(upright ? reference : subject);
  const copy = turned(quotient(copyOverMatrix, positive.range));
  return [
    { code: 'recast', direct, throughWax, agrees: overlaps(size, direct) || overlaps(size, throughWax) },
    { code: 'copyOfMatrix', range: copy, passes: overlaps(size, copy) && agrees },
  ];
}

function unevenness({ x, y, sdX, sdY }: Measured): SizeReading[] {
  const sd = Math.hypot(sdX ?? Number.NaN, sdY ?? Number.NaN);
  if (!(Math.abs(x - y) > 3 * sd && Math.abs(x - y) > 0.005)) return [];
  return [{ code: 'uneven', x, y, sd }];
}

function depthReading({ ratio, depth, sdDepth }: Measured): SizeReading {
  if (!Number.isFinite(depth)) return { code: 'depthUnknown' };
  const share = depth / ratio;
  const sd = (sdDepth ?? Number.NaN) / ratio;
  if (!(Math.abs(share - 1) > 3 * sd && Math.abs(share - 1) > 0.02)) return { code: 'depthAsSize' };
  return { code: share < 1 ? 'shallower' : 'deeper', percent: Math.abs(100 * (share - 1)) };
}
