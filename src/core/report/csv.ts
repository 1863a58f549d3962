import { writeCsv } from '../scan/index.ts';
import type { ComparisonRecord } from './record/schema.ts';

export interface NumberRow {
  /** Place in the record. */
  readonly name: string;
  readonly value: number | null;
  /** mm, mm², mm³, degree, 1 (a ratio, share or score) or count. */
  readonly unit: string;
  /** One standard deviation in the same unit, where it is known. */
  readonly sd: number | null;
}

const row = (name: string, value: unknown, unit: string, sd: unknown = null): NumberRow => ({
  name,
  value: typeof value === 'number' ? value : null,
  unit,
  sd: typeof sd === 'number' ? sd : null,
});

/** Every number of the record that says something about the objects, one a row. */
export function numberRows(record: ComparisonRecord): NumberRow[] {
  return [
    ...fitRows(record),
    ...differenceRows(record),
    ...sizeRows(record),
    ...wearRows(record),
    ...judgeRows(record),
  ];
}

function fitRows({ fit }: ComparisonRecord): NumberRow[] {
  return [
    row('fit.overlap', fit.overlap, '1'),
    row('fit.score', fit.score, '1'),
    row('fit.rivalScore', fit.rivalScore, '1'),
    ...fit.models.flatMap((m) => [
      row(`fit.models.${m.model}.scale`, m.scale, '1', m.scaleSd),
      row(`fit.models.${m.model}.rmsMm`, m.rmsMm, 'mm'),
      row(`fit.models.${m.model}.heldOutRmsMm`, m.heldOutRmsMm, 'mm'),
      ...(m.warpRmsMm === undefined ? [] : [row(`fit.models.${m.model}.warpRmsMm`, m.warpRmsMm, 'mm')]),
    ]),
    row('fit.rotationSdDeg', fit.rotationSdDeg, 'degree'),
    row('fit.translationSdMm', fit.translationSdMm, 'mm'),
  ];
}

const differenceNames = ['medianMm', 'madMm', 'rmsMm', 'p95Mm'] as const;

function differenceRows({ difference }: ComparisonRecord): NumberRow[] {
  const zones = (difference.zones ?? []) as ReadonlyArray<Record<string, unknown>>;
  const of = (name: string, values: Record<string, unknown>): NumberRow[] => [
    ...differenceNames.map((key) => row(`${name}.${key}`, values[key], 'mm')),
    row(`${name}.coveredFraction`, values.coveredFraction, '1'),
  ];
  return [
    ...of('difference', difference),
    row('difference.levelOfDetectionMm', difference.levelOfDetectionMm, 'mm'),
    ...zones.flatMap((zone) => of(`difference.zones.${zone.zone}`, zone)),
  ];
}

const sizeRows = ({ size }: ComparisonRecord): NumberRow[] => [
  row('size.ratio', size.ratio, '1', size.sd),
  row('size.x', size.x, '1', size.sdX),
  row('size.y', size.y, '1', size.sdY),
  row('size.depth', size.depth, '1', size.sdDepth),
];

const wearRows = ({ wear }: ComparisonRecord): NumberRow[] => [
  ...wear.zones.flatMap((zone) => [
    row(`wear.zones.${zone.zone}.${zone.state}.heightKept`, zone.heightKept, '1', zone.heightKeptSd),
    row(`wear.zones.${zone.zone}.${zone.state}.fraction`, zone.fraction, '1'),
  ]),
  ...wear.byWavelength.flatMap((band) => {
    const name = `wear.byWavelength.${band.fromMm}-${band.toMm}mm`;
    return [row(`${name}.gain`, band.gain, '1'), row(`${name}.coherence`, band.coherence, '1')];
  }),
];

function judgeRows({ judge }: ComparisonRecord): NumberRow[] {
  return [
    row('judge.correlation', judge.correlation, '1'),
    row('judge.topographyDifference', judge.topographyDifference, '1'),
    row('judge.score', judge.score, '1'),
    ...evidenceRows(judge),
    ...(judge.gates ?? []).map((gate) => row(`judge.gates.${gate.group}.${gate.name}`, gate.value, gate.unit || '1')),
    row('judge.cells.compared', judge.cells.compared, 'count'),
    row('judge.cells.congruent', judge.cells.congruent, 'count'),
    ...judge.hypotheses
      .filter(({ log10Lr }) => log10Lr !== null)
      .map((h) => row(`judge.hypotheses.${h.id}.log10Lr`, h.log10Lr, '1')),
  ];
}

/** Each piece of evidence with its number and uncertainty. */
function evidenceRows(judge: ComparisonRecord['judge']): NumberRow[] {
  return judge.evidence.map(({ name, value, unit, sd }) => row(`judge.evidence.${name}`, value, unitOf(unit), sd));
}

const unitOf = (unit: string): string => (unit === '' || unit === 'σ' ? '1' : unit.startsWith('of ') ? 'count' : unit);

/** The numbers as CSV: name, value, unit, sd. */
export const numbersCsv = (record: ComparisonRecord): string =>
  writeCsv([['name', 'value', 'unit', 'sd'], ...numberRows(record).map((r) => [r.name, r.value, r.unit, r.sd])]);

/** The congruent cells as CSV, places in the reference's face frame. */
export function cellsCsv({ judge }: ComparisonRecord): string {
  const cells = (judge.cells.each ?? []) as ReadonlyArray<Record<string, unknown>>;
  const names = ['x', 'y', 'dx', 'dy', 'offsetMm', 'turnDeg', 'correlation', 'congruent'];
  return writeCsv([
    ['x_mm', 'y_mm', 'dx_mm', 'dy_mm', 'offset_mm', 'turn_deg', 'correlation', 'congruent'],
    ...cells.map((cell) => names.map((name) => cell[name])),
  ]);
}

/** The landmarks that both show as CSV, places in the reference's face frame; `outside` by the widened ellipse is in the record. */
export function landmarksCsv({ judge }: ComparisonRecord): string {
  type Row = { ellipse: Record<string, unknown>; aloneSmooth: unknown[] } & Record<string, unknown>;
  const { each = [] } = (judge.landmarks ?? {}) as { each?: readonly Row[] };
  return writeCsv([
    [
      'x_mm',
      'y_mm',
      'dx_mm',
      'dy_mm',
      'rest_smooth_x_mm',
      'rest_smooth_y_mm',
      'ellipse_major_mm',
      'ellipse_minor_mm',
      'ellipse_deg',
      'correlation',
    ],
    ...each.map(({ x, y, dx, dy, aloneSmooth, ellipse, correlation }) => [
      x,
      y,
      dx,
      dy,
      ...aloneSmooth,
      ellipse.majorMm,
      ellipse.minorMm,
      ellipse.deg,
      correlation,
    ]),
  ]);
}

/** The marks as CSV, one a row, readings joined by vertical strokes. */
export const marksCsv = ({ damage }: ComparisonRecord): string =>
  writeCsv([
    [
      'id',
      'shape',
      'carried_by',
      'on_subject',
      'deg',
      'hour',
      'radius_mm',
      'area_mm2',
      'depth_mm',
      'volume_mm3',
      'section_width_mm',
      'section',
      'readings',
    ],
    ...damage.map((m) => [
      m.id,
      m.shape,
      m.carriedBy,
      m.onSubject,
      m.at.deg,
      m.at.hour,
      m.at.radiusMm,
      m.areaMm2,
      m.depthMm,
      m.volumeMm3,
      (m.section?.measured as { section?: { widthMm?: number } } | null | undefined)?.section?.widthMm,
      m.section?.words,
      m.readings.join(' | '),
    ]),
  ]);
