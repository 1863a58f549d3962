import type { Difference, Section } from '../../compare/index.ts';
import { type Drawing, type DrawnMark, line, type TextMark, words } from '../drawing/index.ts';
import type { Comparison } from '../input.ts';
import { differenceLegend } from './differenceLegend.ts';
import { differencePicture } from './differencePicture.ts';
import { type Figure, plain, signed } from './figure.ts';
import { lampPhrase } from './lit.ts';
import { mapLayout, type ToPage } from './mapLayout.ts';
import { halo, markedPlaces, onPicture, toPlates } from './markedPlaces.ts';
import type { Plates } from './plates.ts';

const tallest = 560;

/** The depth-difference map on the relief, with its scale, the marks that were found and the line of the section. */
export function differenceFigure(
  comparison: Comparison,
  difference: Difference,
  plates: Plates,
  endMm: number,
  section: Section | undefined,
): Figure {
  const layout = mapLayout(plates.ground.grid, tallest);
  const { to } = layout;
  const rim = hours(plates.referenceRim, to);
  const cut = section ? sectionLine(section, plates, to) : { strokes: [], letters: [] };
  const marks: DrawnMark[] = [
    layout.map(differencePicture(difference, plates, endMm)),
    ...rim,
    ...markedPlaces(comparison.judgement.damage, plates, to, [...rim, ...cut.letters]),
    ...cut.strokes,
    ...cut.letters,
    ...layout.bar(),
    ...layout.legend(
      differenceLegend(
        endMm,
        difference.levelOfDetectionMm,
        comparison.judgement.damage.length > 0,
        section !== undefined,
      ),
    ),
  ];
  const drawing: Drawing = {
    width: layout.width,
    height: layout.height,
    title: `Map of depth differences, scale from −${endMm} to +${endMm} mm`,
    marks,
  };
  const caption = captionOf(comparison, difference, endMm);
  return { id: 'difference', drawing, heading: 'Depth difference', caption, seal: layout.seal };
}

/** 12, 3, 6 and 9 outside the rim, as the places of marks are told. */
export function hours(rim: Float64Array, to: ToPage): TextMark[] {
  return [12, 3, 6, 9].map((hour) => {
    const a = (hour * Math.PI) / 6;
    const [sx, sy] = [Math.sin(a), Math.cos(a)];
    let reach = 0;
    for (let i = 0; i < rim.length; i += 2) {
      const along = rim[i] * sx + rim[i + 1] * sy;
      if (Math.abs(rim[i] * sy - rim[i + 1] * sx) < 0.2 * Math.abs(along)) reach = Math.max(reach, along);
    }
    const [x, y] = [to.x(reach * sx) + 10 * sx, to.y(reach * sy) - 10 * sy];
    return words(x, y + 3, String(hour), 9, 'soft', { align: 'middle' });
  });
}

function sectionLine(section: Section, plates: Plates, to: ToPage): { strokes: DrawnMark[]; letters: TextMark[] } {
  const ends = toPlates(Float64Array.from(section.line), plates, to);
  const [ax, ay, bx, by] = ends;
  const length = Math.hypot(bx - ax, by - ay) || 1;
  const [ux, uy] = [(bx - ax) / length, (by - ay) / length];
  // Above the line's ends, so that the hours at the rim stay free.
  const side = ux >= 0 ? 1 : -1;
  const letter = (text: string, x: number, y: number) =>
    words(x + 10 * side * uy, y - 10 * side * ux + 4, text, 12, 'ink', {
      align: 'middle',
      face: 'italic',
      rim: 'paper',
    });
  return {
    strokes: [line(ends, halo, 2.4), line(ends, onPicture, 0.9, { dash: [7, 4] })],
    letters: [letter('A', ax - 3 * ux, ay - 3 * uy), letter('B', bx + 3 * ux, by + 3 * uy)],
  };
}

/** What the two directions can mean; with a negative as subject the causes change sides. */
function causes({ subject }: Comparison): string {
  return subject.face.sense === 'intaglio'
    ? 'Orange: the subject lies deeper, because it was cut or broken there, or because the reference is rubbed, lost or was not filled. Purple: it stands higher, because it is clogged or filled, or because something was added to the reference.'
    : 'Orange: the subject lacks height, through rubbing, loss or want of filling, or because the reference was cut or broken since. Purple: it stands higher, because it carries a mark that the reference lacks or something added, or because the reference is clogged or filled.';
}

/** Where the level is mostly what light inside wax may do, and nobody said that it is wax. */
function waxWords({ reference, subject }: Comparison, { level, levelOfDetectionMm }: Difference): string {
  const waxMm = 1.96 * (level?.systematicMm ?? 0);
  const unstated = [reference, subject].some(({ material }) => !material);
  return unstated && waxMm > levelOfDetectionMm / 2
    ? `, of it ${plain(waxMm, 3)} for light inside wax, since no material was stated`
    : '';
}

function captionOf(comparison: Comparison, difference: Difference, endMm: number): string {
  const { reference, fit } = comparison;
  const { whole, levelOfDetectionMm, significant } = difference;
  const chance = significant ? ', or no more than chance gives over so many places' : '';
  const model = { rigid: 'rigid', oneScale: 'one-scale', smoothWarp: 'smooth-warp' }[fit.chosen];
  const shown = reference.face.sense === 'intaglio' ? 'turned over, as its impression' : 'as it is';
  return `The subject against the reference after the ${model} fit, on the relief of the reference, shown ${shown}, ${lampPhrase}. ${causes(comparison)} Grey: no measurable difference, within each cell’s level of detection at 95 % (median ± ${plain(levelOfDetectionMm, 3)} mm${waxWords(comparison, difference)})${chance}. Colours end at ± ${endMm} mm; beyond, the last colour. Median ${signed(whole.medianMm, 3)} mm, root mean square ${plain(whole.rmsMm, 3)} mm over ${Math.round(100 * whole.coveredFraction)} % of the reference’s image. Hatched: not compared, because it lies beyond that image, on lip, bevel or cake, or has no counterpart on the subject.`;
}
