import type { LineKind, LineNumbers, LineVerdict } from './lineTypes.ts';
import { lipsOf, verdictDefaults } from './lineVerdict.ts';

/** Lead from which the kind is said without its rival, in powers of ten. */
const plainLead = 1.2;

const withArticle = (kind: LineKind): string => `a ${kind}`;
const mm = (value: number, digits = 2): string => value.toFixed(digits).replace('-', '−');
const withSd = (value: number, sd: number): string =>
  Number.isFinite(sd) ? `${mm(value)} ± ${mm(Math.max(sd, 0.005))} mm` : `${mm(value)} mm`;

/** The verdict and its measured grounds as one sentence. `sign`: 1 for a ridge, −1 for a groove. */
export function lineWords(measured: LineNumbers | null, verdict: LineVerdict, sign: 1 | -1): string {
  if (!measured) return 'Too little of it is scanned for a section: cut, crack or scratch cannot be told.';
  const parts = [wayWords(measured), widthWords(measured, sign), lipWords(measured, sign), levelWords(measured, sign)];
  const said = parts.filter((part) => part !== '').join(', ');
  return `${said[0].toUpperCase()}${said.slice(1)}: ${endWords(verdict, measured)}.`;
}

function endWords({ verdict, fits, order, lead }: LineVerdict, { section }: LineNumbers): string {
  if (order.length === 0)
    return section.depthMm > verdictDefaults.highest * section.mostMm
      ? 'too uneven to tell cut, crack or scratch'
      : 'what stands beside it is higher, and cut, crack or scratch cannot be told';
  if (!fits) return 'it is like no cut, crack or scratch, and may be none';
  if (verdict === 'cannotTell') return `${withArticle(order[0])} or ${withArticle(order[1])}, which cannot be told`;
  return lead >= plainLead ? withArticle(verdict) : `rather ${withArticle(verdict)} than ${withArticle(order[1])}`;
}

function wayWords({ strayMm, wanderMm, lengthMm }: LineNumbers): string {
  const over = `over ${mm(lengthMm, 1)} mm`;
  if (strayMm < 0.006 * lengthMm) return `straight to ${mm(Math.max(strayMm, 0.01))} mm r.m.s. ${over}`;
  if (wanderMm < 0.006 * lengthMm) return `in one bow to ${mm(Math.max(wanderMm, 0.01))} mm r.m.s. ${over}`;
  return `wandering by ${mm(wanderMm)} mm r.m.s. ${over}`;
}

function widthWords({ section, pitchMm }: LineNumbers, sign: 1 | -1): string {
  const { widthMm, widthSdMm, depthMm, depthSdMm, bottom } = section;
  const tall = `${withSd(depthMm, depthSdMm)} ${sign > 0 ? 'high' : 'deep'}`;
  const form = { vee: ', V-shaped', round: ', rounded', flat: ', flat', unresolved: '' }[bottom];
  const wide =
    widthMm > verdictDefaults.resolved * pitchMm
      ? `${withSd(widthMm, widthSdMm)} wide at half of it`
      : `no wider than the scan resolves (${mm(widthMm)} mm)`;
  return `${tall}, ${wide}${form}`;
}

function lipWords({ section }: LineNumbers, sign: 1 | -1): string {
  const { lipMm, lipSdMm } = section;
  const raised = lipsOf(section);
  if (raised.length === 0) {
    const most = Math.max(...[0, 1].map((side) => Math.max(0, lipMm[side]) + 2 * lipSdMm[side]));
    return Number.isFinite(most) ? `no lips over ${mm(Math.max(0.01, most))} mm` : '';
  }
  const mean = raised.reduce((sum, side) => sum + lipMm[side], 0) / raised.length;
  const sd = Math.max(...raised.map((side) => lipSdMm[side]));
  // Burr of the matrix prints sunk beside a ridge.
  const what = sign > 0 ? 'furrows as burr prints' : 'lips';
  return `${what} of ${mm(mean, 3)} ± ${mm(sd, 3)} mm on ${raised.length === 2 ? 'both sides' : 'one side'}`;
}

function levelWords({ level, section }: LineNumbers, sign: 1 | -1): string {
  if (!level) return '';
  const { ground, forLevel, levelMm, lowMm, highMm, beyond, beyondWithout } = level;
  const what = ground === 'design' ? 'the design stands' : 'its sides stand';
  const beyondWords = `${sign > 0 ? 'higher' : 'lower'} than ${mm(levelMm)} mm`;
  if (forLevel > verdictDefaults.levelUnit / 2)
    return beyond >= 1 && beyondWithout > 0.6 * beyond
      ? `absent where ${what} ${beyondWords}`
      : `keeping one level of ${mm(levelMm)} mm`;
  const range = highMm - lowMm;
  if (forLevel < -verdictDefaults.levelUnit / 4 && range > 0.5 * section.depthMm)
    return `following the surface over ${mm(range)} mm of relief`;
  return '';
}
