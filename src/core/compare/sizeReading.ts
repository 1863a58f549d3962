import {
  copyOverMatrix,
  quotient,
  type Range,
  recastOverImpression,
  type SizedObject,
  sizeFromMatrix,
} from './materials.ts';
import { directRange, overlaps } from './sizeFavours.ts';
import type { SizeTest } from './types.ts';

/** The numbers of a size test, before anything is said of them. */
type Measured = Omit<SizeTest, 'reading' | 'favours' | 'copyIs'>;

/** What the size ratio says against the chain of materials, in sentences; see materials.ts for the figures' sources. */
export function sizeReading(size: Measured, reference: SizedObject, subject: SizedObject): readonly string[] {
  const silent = silence(size, reference, subject);
  return [
    measured(size),
    ...(silent ? [silent] : weighed(size, reference, subject)),
    ...unevenness(size),
    ...depthWords(size),
  ];
}

function measured({ ratio, sd }: Measured): string {
  const percent = Math.abs(100 * (ratio - 1));
  const words =
    Math.abs(ratio - 1) < sd ? 'as large as' : `${percent.toFixed(1)} % ${ratio < 1 ? 'smaller' : 'larger'} than`;
  return `The subject is ${words} the reference: ratio ${ratio.toFixed(4)} ± ${sd.toFixed(4)} (1 σ).`;
}

/** Why size decides nothing, where it does not. */
function silence({ sd }: Measured, reference: SizedObject, subject: SizedObject): string | null {
  const assumed = [['reference', reference] as const, ['subject', subject] as const].filter(
    ([, { scaleUncertaintyFrom }]) => scaleUncertaintyFrom === 'assumed',
  );
  if (assumed.length > 0) {
    const whose = assumed.map(([name]) => `the ${name}'s`).join(' and ');
    return `Size decides nothing: ${whose} scale uncertainty is not stated and was taken as ${assumed[0][1].scaleUncertaintyPercent} %.`;
  }
  if (sd > 0.01) return 'Size decides nothing: the ratio is not known to one part in a hundred.';
  return null;
}

function weighed(size: Measured, reference: SizedObject, subject: SizedObject): string[] {
  const own = sizeFromMatrix(subject);
  const other = sizeFromMatrix(reference);
  const genuine = directRange(reference, subject);
  const agrees = overlaps(size, genuine);
  return [
    `One matrix without a copy between (reference: ${other.words}; subject: ${own.words}) asks for ${spoken(genuine)}: the size ${agrees ? 'agrees' : 'does not agree'}. The ranges rest on a published trial, on charts that disagree and partly on memory.`,
    ...rivals(size, reference, subject, agrees),
  ];
}

/** The rivals that concern a matrix; between two positives or two negatives the chain is too loose to name one. */
function rivals(size: Measured, reference: SizedObject, subject: SizedObject, agrees: boolean): string[] {
  if (reference.sense === subject.sense) return [];
  const upright = subject.sense === 'intaglio';
  const turned = (range: Range): Range => (upright ? range : quotient([1, 1], range));
  const direct = turned(recastOverImpression.direct);
  const through = turned(recastOverImpression.throughWax);
  const recast = overlaps(size, direct) || overlaps(size, through);
  const positive = sizeFromMatrix(upright ? reference : subject);
  const copy = turned(quotient(copyOverMatrix, positive.range));
  return [
    `A matrix recast from this impression would give ${spoken(direct)}, or ${spoken(through)} with a wax model between: the size ${recast ? 'agrees with that' : 'speaks against that'}.`,
    `A copy moulded from the matrix would give ${spoken(copy)}${overlaps(size, copy) && agrees ? ' and passes the same test' : ''}. An impression taken today passes whatever it was taken from.`,
  ];
}

function unevenness({ x, y, sdX, sdY }: Measured): string[] {
  const sd = Math.hypot(sdX ?? Number.NaN, sdY ?? Number.NaN);
  if (!(Math.abs(x - y) > 3 * sd && Math.abs(x - y) > 0.005)) return [];
  return [
    `Across and along differ (x ${x.toFixed(4)}, y ${y.toFixed(4)}, each ± ${sd.toFixed(4)} or less): the subject was stretched unevenly, as warped wax is, or one scan's axes are not alike.`,
  ];
}

function depthWords({ ratio, depth, sdDepth }: Measured): string[] {
  if (!Number.isFinite(depth)) return ['Depth could not be compared.'];
  const share = depth / ratio;
  const sd = (sdDepth ?? Number.NaN) / ratio;
  if (!(Math.abs(share - 1) > 3 * sd && Math.abs(share - 1) > 0.02))
    return ['The relief is as deep as the size ratio asks for.'];
  const percent = `${Math.abs(100 * (share - 1)).toFixed(0)} %`;
  return share < 1
    ? [
        `The relief is ${percent} shallower than the size ratio asks for: rubbed, flattened or not filled, or the reference was cut deeper since.`,
      ]
    : [
        `The relief is ${percent} deeper than the size ratio asks for: the reference is worn, lapped down or clogged, or the subject is not what it left.`,
      ];
}

const spoken = ([least, most]: Range): string =>
  least === most ? least.toFixed(3) : `${least.toFixed(3)} to ${most.toFixed(3)}`;
