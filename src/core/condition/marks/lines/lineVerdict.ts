import type { LineGround, LineKind, LineNumbers, LineVerdict, MeanSection } from './lineTypes.ts';

/** Weights set by hand on simulated lines (docs/condition.md); powers of ten. */
export const verdictDefaults = {
  /** A verdict needs this lead. */
  lead: 0.4,
  /** … and a sum of at least this: else it fits none of the three. */
  leastSum: -0.9,
  /** Difference of the two readings of the crests that counts in full, and what it then adds. */
  levelUnit: 5,
  mostLevel: 1.5,
  /** … of which this share where only the sides tell the design's height. */
  bySides: 0.5,
  /** Section area, log10 mm²: middle by kind, and common spread. A crack or a scratch hardly fills a tenth of a square millimetre. */
  area: { cut: -0.72, crack: -1.35, scratch: -1.8 },
  areaSpread: 0.27,
  /** Wander over length, log10. */
  wander: { cut: -2.75, crack: -2.2, scratch: -2.35 },
  wanderSpread: 0.3,
  /** Depth over width at half depth, log10; lines hardly wider than the scan resolves look less steep than they are. */
  steep: { cut: -0.25, crack: -0.3, scratch: -0.6 },
  steepSpread: 0.2,
  resolved: 2.6,
  /** Most that these three add. */
  most: 1,
  mostSize: 2.5,
  /** A lip counts from so many standard deviations and this share of the depth; a crack throws up none. */
  lipSds: 3,
  lipShare: 0.04,
  lipLeastMm: 0.015,
  lip: 0.5,
  /** Not read at all: fewer pieces, depth less than so many standard deviations, lower than this share of what stands beside, seen over less of the length, width spread over more. */
  leastPieces: 3,
  depthSds: 4,
  highest: 0.75,
  leastSeen: 0.5,
  mostSpread: 0.45,
};

/**
 * Weighs the grounds that speak for a cut (one level, broad, straight), a crack (follows the surface, narrow, deep, wanders, no
 * lips) and a scratch (shallow and narrow). The kind with the greatest sum is said where it leads by `lead`; else, and where the
 * line is not measured well enough, it cannot be told.
 */
export function lineVerdict(numbers: LineNumbers | null, options = verdictDefaults): LineVerdict {
  if (!numbers || !measuredWell(numbers, options))
    return { verdict: 'cannotTell', fits: false, order: [], lead: 0, grounds: [] };
  const grounds = groundsOf(numbers, options);
  const sums = (['cut', 'crack', 'scratch'] as const)
    .map((kind) => ({ kind, sum: grounds.reduce((total, ground) => total + ground[kind], 0) }))
    .sort((a, b) => b.sum - a.sum);
  const lead = sums[0].sum - sums[1].sum;
  const fits = sums[0].sum >= options.leastSum;
  return {
    verdict: fits && lead >= options.lead ? sums[0].kind : 'cannotTell',
    fits,
    order: sums.map(({ kind }) => kind),
    lead,
    grounds,
  };
}

function measuredWell({ section, seen }: LineNumbers, options: typeof verdictDefaults): boolean {
  return (
    section.pieces >= options.leastPieces &&
    section.depthMm > options.depthSds * section.depthSdMm &&
    section.depthMm > options.highest * section.mostMm &&
    seen >= options.leastSeen &&
    section.widthSpread < options.mostSpread
  );
}

function groundsOf(
  { section, level, wanderMm, lengthMm, pitchMm }: LineNumbers,
  options: typeof verdictDefaults,
): LineGround[] {
  const grounds: LineGround[] = [];
  if (level) {
    const share = level.ground === 'design' ? 1 : options.bySides;
    const weight = share * Math.max(-1, Math.min(1, level.forLevel / options.levelUnit)) * options.mostLevel;
    // What follows the surface is no cut; what keeps one level is no crack.
    grounds.push({ name: 'level', cut: weight, crack: Math.min(0, -weight), scratch: 0 });
  }
  const near = (
    name: LineGround['name'],
    value: number,
    middle: Record<LineKind, number>,
    spread: number,
    most = options.most,
  ): void => {
    // Beyond the outermost middle nothing more is said: the straightest line is not the less a scratch.
    const middles = Object.values(middle);
    const within = Math.max(Math.min(...middles), Math.min(Math.max(...middles), value));
    const suits = (kind: LineKind): number => (-0.5 * Math.LOG10E * (within - middle[kind]) ** 2) / spread ** 2;
    const best = Math.max(suits('cut'), suits('crack'), suits('scratch'));
    const part = (kind: LineKind): number => Math.max(-most, suits(kind) - best);
    grounds.push({ name, cut: part('cut'), crack: part('crack'), scratch: part('scratch') });
  };
  near('size', Math.log10(section.areaMm2), options.area, options.areaSpread, options.mostSize);
  // The middle is not known better than to about a tenth of a cell.
  near('wander', Math.log10(Math.hypot(wanderMm, 0.1 * pitchMm) / lengthMm), options.wander, options.wanderSpread);
  const steep = Math.log10(section.depthMm / section.widthMm);
  if (section.widthMm > options.resolved * pitchMm || steep > options.steep.crack)
    near('steepness', steep, options.steep, options.steepSpread);
  const lips = lipsOf(section, options).length;
  if (lips > 0) grounds.push({ name: 'lips', cut: 0, crack: -options.lip * lips, scratch: 0 });
  return grounds;
}

/** The sides (0 right, 1 left of the way along) on which something was thrown up beyond doubt. */
export function lipsOf({ lipMm, lipSdMm, depthMm }: MeanSection, options = verdictDefaults): number[] {
  const least = Math.max(options.lipLeastMm, options.lipShare * depthMm);
  return [0, 1].filter((side) => lipMm[side] > options.lipSds * lipSdMm[side] && lipMm[side] > least);
}
