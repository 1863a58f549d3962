import type { LineKind, LineReading, LineSection } from '../../condition/index.ts';
import { capital } from '../../scan/index.ts';

type Measured = NonNullable<LineSection['measured']>;

/** A line's verdict and its measured grounds as one sentence; lengths in mm. */
export function lineWords({ reading, measured, ridge }: Pick<LineSection, 'reading' | 'measured' | 'ridge'>): string {
  if (!reading || !measured) return 'Too little of it is scanned for a section: cut, crack or scratch cannot be told.';
  const parts = [
    wayWords(reading, measured),
    widthWords(reading, measured, ridge),
    lipWords(reading.lips),
    levelWords(reading.level),
  ];
  return `${capital(parts.filter((part) => part !== '').join(', '))}: ${endWords(reading.end)}.`;
}

const withArticle = (kind: LineKind): string => `a ${kind}`;
const mm = (value: number, digits = 2): string => value.toFixed(digits).replace('-', '−');
const withSd = (value: number, sd: number): string =>
  Number.isFinite(sd) ? `${mm(value)} ± ${mm(Math.max(sd, 0.005))} mm` : `${mm(value)} mm`;

function endWords(end: LineReading['end']): string {
  switch (end.code) {
    case 'tooUneven':
      return 'too uneven to tell cut, crack or scratch';
    case 'higherBeside':
      return 'what stands beside it is higher, and cut, crack or scratch cannot be told';
    case 'likeNone':
      return 'it is like no cut, crack or scratch, and may be none';
    case 'oneOfTwo':
      return `${withArticle(end.kinds[0])} or ${withArticle(end.kinds[1])}, which cannot be told`;
    case 'plain':
      return withArticle(end.kind);
    case 'rather':
      return `rather ${withArticle(end.kind)} than ${withArticle(end.than)}`;
  }
}

function wayWords({ way }: LineReading, { lengthMm }: Measured): string {
  const over = `over ${mm(lengthMm, 1)} mm`;
  if (way.code === 'wandering') return `wandering by ${mm(way.offMm)} mm r.m.s. ${over}`;
  const runs = way.code === 'straight' ? 'straight to' : 'in one bow to';
  return `${runs} ${mm(Math.max(way.offMm, 0.01))} mm r.m.s. ${over}`;
}

const bottoms = { vee: ', V-shaped', round: ', rounded', flat: ', flat', unresolved: '' } as const;

function widthWords({ width }: LineReading, { section }: Measured, ridge: boolean): string {
  const tall = `${withSd(section.depthMm, section.depthSdMm)} ${ridge ? 'high' : 'deep'}`;
  const wide =
    width.code === 'wide'
      ? `${withSd(width.widthMm, section.widthSdMm)} wide at half of it`
      : `no wider than the scan resolves (${mm(width.widthMm)} mm)`;
  return `${tall}, ${wide}${bottoms[section.bottom]}`;
}

function lipWords(lips: LineReading['lips']): string {
  if (!lips) return '';
  if (lips.code === 'none') return `no lips over ${mm(Math.max(0.01, lips.overMm))} mm`;
  const what = lips.code === 'furrows' ? 'furrows as burr prints' : 'lips';
  return `${what} of ${mm(lips.heightMm, 3)} ± ${mm(lips.sdMm, 3)} mm on ${lips.sides === 2 ? 'both sides' : 'one side'}`;
}

function levelWords(level: LineReading['level']): string {
  switch (level?.code) {
    case 'absentBeyond':
      return `absent where ${level.ground === 'design' ? 'the design stands' : 'its sides stand'} ${level.side} than ${mm(level.levelMm)} mm`;
    case 'keepsLevel':
      return `keeping one level of ${mm(level.levelMm)} mm`;
    case 'follows':
      return `following the surface over ${mm(level.rangeMm)} mm of relief`;
    default:
      return '';
  }
}
