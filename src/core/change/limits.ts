import { isTranslucent } from '../compare/index.ts';
import type { ChangeFound, ChangeInput, ChangeLimit } from './types.ts';

export const limitDefaults = {
  /** Said where less than this share of the face was compared, or of what was compared is unchanged. */
  comparedShare: 0.9,
  unchangedShare: 0.6,
  /** Said where a bending is larger than this, root mean square, mm, and a blur, standard deviation, mm. */
  bendingMm: 0.004,
  blurMm: 0.03,
};

type Known = Pick<
  ChangeFound,
  'comparedShare' | 'unchangedShare' | 'bendingRmsMm' | 'blunt' | 'size' | 'noise' | 'changes'
>;

/** What limits the finding, by code. */
export function limitsOf(
  found: Known,
  earlier: ChangeInput,
  later: ChangeInput,
  options = limitDefaults,
): ChangeLimit[] {
  const limits: ChangeLimit[] = [];
  const { size, noise } = found;
  if (noise.from === 'pair') limits.push({ code: 'noRepeat' });
  if (noise.from === 'oneRepeat') limits.push({ code: 'oneRepeat' });
  const unstated = [
    ...(earlier.scaleUncertaintyFrom === 'stated' ? [] : (['earlier'] as const)),
    ...(later.scaleUncertaintyFrom === 'stated' ? [] : (['later'] as const)),
  ];
  if (unstated.length > 0) limits.push({ code: 'scaleNotStated', whose: unstated });
  const off = Math.abs(size.ratio - 1);
  if (size.reading === 'notStated' && off > 1.96 * size.sd)
    limits.push({ code: 'sizeBeyondScales', percent: 100 * off, knownPercent: 100 * size.sd });
  if (found.comparedShare < options.comparedShare) limits.push({ code: 'notCompared', share: 1 - found.comparedShare });
  if (found.unchangedShare < options.unchangedShare)
    limits.push({ code: 'littleUnchanged', share: found.unchangedShare });
  if (found.bendingRmsMm > options.bendingMm) limits.push({ code: 'bent', rmsMm: found.bendingRmsMm });
  if (found.blunt.sigmaMm > options.blurMm) limits.push({ code: 'blunter', ...found.blunt });
  if (lightEnters(earlier) || lightEnters(later)) limits.push({ code: 'translucent' });
  limits.push({ code: 'evenChangeUnseen' });
  if (found.changes.length > 0) limits.push({ code: 'causesNotTold' });
  return limits;
}

/** Wax by what is stated of it, or a relief of unstated material that is no cast. */
const lightEnters = ({ material, kind, face }: ChangeInput): boolean =>
  material ? isTranslucent(material) : face.sense === 'relief' && kind !== 'cast';
