import { capital } from '../../scan/index.ts';
import type { ComparisonRecord } from '../record/schema.ts';
import { modelPhrase } from '../words/phrases.ts';
import { list, number, percent, safe, section, signedNumber, table, terms, withSd } from './html.ts';

/** The three models side by side, the size test and the depth differences by zone. */
export function fitSection(record: ComparisonRecord): string {
  const { fit } = record;
  if (!fit.found) return section('fit', 'No fit', noFit(record));
  return section(
    'fit',
    'Fit, size and depth',
    `${modelsTable(record)}${fitTerms(record)}${sizeTable(record)}${zonesTable(record)}`,
  );
}

function noFit({ fit }: ComparisonRecord): string {
  const doubts = (fit.doubts ?? []) as string[];
  return `<p>No turn, place and size brings the two faces together well enough to be relied on, so no depth was measured, and the figures show each face as it lies on its scan.</p>${list(doubts)}`;
}

function modelsTable({ fit }: ComparisonRecord): string {
  const head = (model: keyof typeof modelPhrase): string =>
    model === fit.chosen ? `<b>${modelPhrase[model]}</b>, chosen` : modelPhrase[model];
  const row = (name: string, cell: (m: (typeof fit.models)[number]) => string): string[] => [
    name,
    ...fit.models.map(cell),
  ];
  return table(
    'The fit under three models. Scale takes the subject to the reference: above 1 for wax that shrank.',
    [{ head: '', words: true }, ...fit.models.map(({ model }) => ({ head: head(model) }))],
    [
      row('scale', (m) => (m.model === 'rigid' ? '1 (fixed)' : withSd(m.scale, m.scaleSd, 4))),
      row('residual over the trimmed overlap, root mean square, mm', (m) => number(m.rmsMm, 3)),
      row('same, on parts held out, mm', (m) => number(m.heldOutRmsMm, 3)),
      row('size of the warp, mm', (m) => (m.model === 'smoothWarp' ? number(m.warpRmsMm, 3) : '–')),
    ],
  );
}

function fitTerms({ fit }: ComparisonRecord): string {
  const laid = fit.mirrored
    ? '<b>The subject’s file is mirrored:</b> only a reflection brings the two together.'
    : fit.turnedOver
      ? 'The subject lies face to face on the reference (a rotation, not a mirror image).'
      : 'Both show the same sense; neither was turned over.';
  const rivals = fit.rivalTurns.map(
    ({ turnDeg, score }) => `${signedNumber(turnDeg, 1)}° clockwise: correlation ${number(score, 2)}`,
  );
  const pairs: Array<[string, string]> = [
    ['Position', laid],
    [
      'Overlap',
      `${percent(fit.overlap)} of the smaller face’s area met the other and kept weight in the fit (what is rubbed, broken or off loses it); over the overlap the detail correlates by ${number(fit.score, 2)} under the chosen model ${fit.rivalTurns.length > 0 ? ` (by ${number(fit.rivalScore, 2)} at the best rival turn)` : ''}`,
    ],
    [
      'Uncertainty',
      `turn ${number(fit.rotationSdDeg, 3)}°, place ${number(fit.translationSdMm, 4)} mm (one standard deviation)`,
    ],
    ['Rival turns', rivals.length > 0 ? safe(capital(`${rivals.join('; ')}.`)) : 'none'],
  ];
  const start = fit.start as StartRecord | undefined;
  const [doubts, loose] = [(fit.doubts ?? []) as string[], (fit.degenerate ?? []) as string[]];
  if (start) pairs.push(['Begun by hand', safe(startWords(start))]);
  if (doubts.length > 0) pairs.push(['Doubts', list(doubts)]);
  if (loose.length > 0) pairs.push(['Hardly held', list(loose)]);
  return terms(pairs);
}

interface StartRecord {
  readonly from: 'turn' | 'pairs';
  readonly turnDeg?: number;
  readonly scale?: number;
  readonly pairs?: readonly unknown[];
  readonly pairsApartMm?: number | null;
}

/** Where a person let the fit begin. */
export function startWords({ from, turnDeg, scale, pairs, pairsApartMm }: StartRecord): string {
  if (from === 'pairs')
    return `at ${pairs?.length ?? 0} pairs of places marked on both faces; under this fit they lie ${number(pairsApartMm ?? null, 2)} mm apart (root mean square).`;
  return `at a turn of ${signedNumber(turnDeg ?? 0, 1)}° clockwise from the one that the search prefers${scale === undefined ? '' : `, at size ${number(scale, 3)}`}.`;
}

function sizeTable({ size, reference, subject }: ComparisonRecord): string {
  const [a, b] = [reference.scaleUncertaintyPercent, subject.scaleUncertaintyPercent];
  const rows = [
    ['overall', withSd(size.ratio, size.sd, 4), signedPercent(size.ratio)],
    ['across', withSd(size.x, size.sdX, 4), signedPercent(size.x)],
    ['upright', withSd(size.y, size.sdY, 4), signedPercent(size.y)],
    ['in depth', withSd(size.depth, size.sdDepth, 4), signedPercent(size.depth)],
  ];
  const caption = `Size of the subject ÷ size of the reference: below 1 for wax that shrank. Scale of the scans known to ${number(a, 2)} % (reference) and ${number(b, 2)} % (subject); only the overall uncertainty includes that. Each ± is one standard deviation. The ratios along the axes are what the residuals of the chosen model still ask for, robustly, and lean on other slopes of the relief than the overall one: they can lie a few thousandths apart from it, beyond their own formal ±.`;
  return `${table(caption, [{ head: '', words: true }, { head: 'ratio' }, { head: 'difference' }], rows)}${size.reading.length > 0 ? list(size.reading) : ''}`;
}

const signedPercent = (ratio: number | null): string =>
  ratio === null ? '–' : `${signedNumber(100 * (ratio - 1), 2)} %`;

function zonesTable({ difference }: ComparisonRecord): string {
  type Row = { zone: string; medianMm: number; madMm: number; rmsMm: number; p95Mm: number; coveredFraction: number };
  const zones = ((difference.zones ?? []) as Row[]).filter(({ zone }) => zone !== 'whole');
  const row = (name: string, z: Omit<Row, 'zone'>): string[] => [
    name,
    signedNumber(z.medianMm, 3),
    number(z.madMm, 3),
    number(z.rmsMm, 3),
    number(z.p95Mm, 3),
    percent(z.coveredFraction),
  ];
  return table(
    `Depth difference, mm: positive where the subject stands higher than the reference would make it today. Level of detection at 95 %: ${number(difference.levelOfDetectionMm, 3)} mm (median over the image). Covered: share of the reference’s zone that has a counterpart on the subject. All of it is of the reference’s image, within its convex hull, and of no lip, bevel or cake beyond.`,
    [
      { head: 'zone', words: true },
      { head: 'median' },
      { head: 'median absolute deviation' },
      { head: 'root mean square' },
      { head: '95 % within' },
      { head: 'covered' },
    ],
    [row('whole image', difference as unknown as Row), ...zones.map((zone) => row(safe(zone.zone), zone))],
  );
}
