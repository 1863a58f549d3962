import type { Mark } from '../../condition/index.ts';
import { type DrawnMark, line, words } from '../drawing/index.ts';
import { type Figure, plain } from './figure.ts';

const width = 720;
const perRow = 3;
const mostPanels = 6;
const gap = 20;
const panel = (width - (perRow - 1) * gap) / perRow;
const headline = 16;
const foot = 26;

interface Drawn {
  readonly mark: Mark;
  readonly asideMm: readonly number[];
  /** In the positive's sense: raised marks stand up. */
  readonly heightMm: readonly number[];
  readonly sdMm: readonly number[];
}

/** The marks whose section was measured, in their order; at most six. */
function drawnOf(damage: readonly Mark[]): Drawn[] {
  return damage
    .flatMap((mark) => {
      const section = mark.section?.measured?.section;
      if (!section) return [];
      const reachMm = Math.max(0.8, 1.8 * section.widthMm);
      const kept = Array.from(section.asideMm.keys()).filter(
        (k) => Number.isFinite(section.heightMm[k]) && Math.abs(section.asideMm[k]) <= reachMm,
      );
      const sign = mark.section?.ridge ? 1 : -1;
      return kept.length < 3
        ? []
        : [
            {
              mark,
              asideMm: kept.map((k) => section.asideMm[k]),
              heightMm: kept.map((k) => sign * section.heightMm[k]),
              sdMm: kept.map((k) => section.heightSdMm[k] || 0),
            },
          ];
    })
    .slice(0, mostPanels);
}

/** Mean sections across the line marks, all at one true scale; null where there is none. */
export function lineSectionsFigure(damage: readonly Mark[]): Figure | null {
  const drawn = drawnOf(damage);
  if (drawn.length === 0) return null;
  const reachMm = Math.max(...drawn.map(({ asideMm }) => asideMm[asideMm.length - 1]));
  const perMm = panel / (2 * reachMm);
  const edge = ({ heightMm, sdMm }: Drawn, way: 1 | -1): number[] => heightMm.map((z, k) => z + way * 2 * sdMm[k]);
  const rows: Drawn[][] = [];
  for (let k = 0; k < drawn.length; k += perRow) rows.push(drawn.slice(k, k + perRow));
  const marks: DrawnMark[] = [];
  let top = 0;
  for (const row of rows) {
    const highMm = Math.max(0.05, ...row.flatMap((one) => edge(one, 1)));
    const lowMm = Math.min(-0.05, ...row.flatMap((one) => edge(one, -1)));
    const zero = top + headline + 6 + highMm * perMm;
    row.forEach((one, k) => {
      marks.push(...panelOf(one, k * (panel + gap), zero, perMm, top + 11));
    });
    top = zero - lowMm * perMm + foot;
  }
  const bar = reachMm > 1.2 ? 1 : 0.5;
  marks.push(
    line([width - bar * perMm, top - 14, width, top - 14], 'ink', 0.9),
    words(width, top - 3, `${bar} mm`, 9.5, 'soft', { align: 'end' }),
  );
  const drawing = { width, height: top + 4, title: 'Mean sections across the line marks', marks };
  return { id: 'marks', drawing, heading: 'Sections of the line marks', caption: captionOf(drawn, damage) };
}

/** One section: the surface beside it as a thin line, the mean, and two standard deviations to either side broken. */
function panelOf(one: Drawn, left: number, zero: number, perMm: number, nameAt: number): DrawnMark[] {
  const { mark, asideMm, heightMm, sdMm } = one;
  const middle = left + panel / 2;
  const curve = (off: number): number[] =>
    asideMm.flatMap((s, k) => [middle + s * perMm, zero - (heightMm[k] + off * sdMm[k]) * perMm]);
  const name = mark.shape === 'line' ? 'cannot be told' : mark.shape;
  return [
    words(left, nameAt, mark.id, 11, 'ink'),
    words(left + 24, nameAt, name, 11, 'accent', { face: 'italic' }),
    line([left, zero, left + panel, zero], 'rule', 0.7),
    line(curve(-2), 'soft', 0.7, { dash: [2, 2] }),
    line(curve(2), 'soft', 0.7, { dash: [2, 2] }),
    line(curve(0), 'ink', 1.2),
  ];
}

function captionOf(drawn: readonly Drawn[], damage: readonly Mark[]): string {
  const lines = damage.filter(({ section }) => section).length;
  const some = lines > drawn.length ? ` The ${drawn.length} largest of ${lines} whose section was measured.` : '';
  const each = drawn.map(({ mark }) => {
    const { depthMm, widthMm } = mark.section?.measured?.section ?? { depthMm: Number.NaN, widthMm: Number.NaN };
    return `${mark.id} ${plain(depthMm)} × ${plain(widthMm)} mm`;
  });
  return `Mean section across each line mark as the impression shows it (raised marks stand up), heights and widths at one true scale; broken lines two standard deviations of the mean to either side. Depth and width at half of it: ${each.join(', ')}. Widths include what the scan blurs.${some}`;
}
