import type { LineNumbers, LineReading, LineVerdict } from './lineTypes.ts';
import { lipsOf, verdictDefaults } from './lineVerdict.ts';

export const lineReadingDefaults = {
  /** Lead from which the kind is said without its rival, in powers of ten. */
  plainLead: 1.2,
  /** Straight, or in one bow, below this root mean square distance as a share of the length. */
  straight: 0.006,
  /** Absent beyond its level where it is not seen on more than this share of what lies beyond. */
  absent: 0.6,
};

/** What is to be said of a line: its verdict, way, width, lips and level. `sign`: 1 for a ridge, −1 for a groove. */
export function lineReading(measured: LineNumbers | null, verdict: LineVerdict, sign: 1 | -1): LineReading | null {
  if (!measured) return null;
  return {
    end: endOf(verdict, measured),
    way: wayOf(measured),
    width: widthOf(measured),
    lips: lipsRead(measured, sign),
    level: levelOf(measured, sign),
  };
}

function endOf({ verdict, fits, order, lead }: LineVerdict, { section }: LineNumbers): LineReading['end'] {
  if (order.length === 0) {
    const uneven = section.depthMm > verdictDefaults.highest * section.mostMm;
    return { code: uneven ? 'tooUneven' : 'higherBeside' };
  }
  if (!fits) return { code: 'likeNone' };
  if (verdict === 'cannotTell') return { code: 'oneOfTwo', kinds: [order[0], order[1]] };
  if (lead >= lineReadingDefaults.plainLead) return { code: 'plain', kind: verdict };
  return { code: 'rather', kind: verdict, than: order[1] };
}

function wayOf({ strayMm, wanderMm, lengthMm }: LineNumbers): LineReading['way'] {
  const most = lineReadingDefaults.straight * lengthMm;
  if (strayMm < most) return { code: 'straight', offMm: strayMm };
  return { code: wanderMm < most ? 'oneBow' : 'wandering', offMm: wanderMm };
}

function widthOf({ section: { widthMm }, pitchMm }: LineNumbers): LineReading['width'] {
  return { code: widthMm > verdictDefaults.resolved * pitchMm ? 'wide' : 'unresolved', widthMm };
}

function lipsRead({ section }: LineNumbers, sign: 1 | -1): LineReading['lips'] {
  const { lipMm, lipSdMm } = section;
  const raised = lipsOf(section);
  if (raised.length === 0) {
    const overMm = Math.max(...[0, 1].map((side) => Math.max(0, lipMm[side]) + 2 * lipSdMm[side]));
    return Number.isFinite(overMm) ? { code: 'none', overMm } : null;
  }
  const heightMm = raised.reduce((sum, side) => sum + lipMm[side], 0) / raised.length;
  const sdMm = Math.max(...raised.map((side) => lipSdMm[side]));
  // Burr of the matrix prints sunk beside a ridge.
  return { code: sign > 0 ? 'furrows' : 'lips', sides: raised.length === 2 ? 2 : 1, heightMm, sdMm };
}

function levelOf({ level, section }: LineNumbers, sign: 1 | -1): LineReading['level'] {
  if (!level) return null;
  const { ground, forLevel, levelMm, lowMm, highMm, beyond, beyondWithout } = level;
  if (forLevel > verdictDefaults.levelUnit / 2)
    return beyond >= 1 && beyondWithout > lineReadingDefaults.absent * beyond
      ? { code: 'absentBeyond', ground, side: sign > 0 ? 'higher' : 'lower', levelMm }
      : { code: 'keepsLevel', levelMm };
  const rangeMm = highMm - lowMm;
  const follows = forLevel < -verdictDefaults.levelUnit / 4 && rangeMm > 0.5 * section.depthMm;
  return follows ? { code: 'follows', rangeMm } : null;
}
