import type { ChangeFound } from '../../change/index.ts';
import { easyEnds, inImpressionSense } from '../../compare/index.ts';
import { median, withHeights } from '../../geometry/index.ts';
import type { Drawing, DrawnMark } from '../drawing/index.ts';
import type { ChangeComparison, PreparedScan } from '../input.ts';
import { pairOfDates } from '../upright.ts';
import { hours } from './difference.ts';
import { differenceLegend, type pairLegend } from './differenceLegend.ts';
import { type DrawnDifference, differencePicture } from './differencePicture.ts';
import { panelsDrawing } from './faces.ts';
import type { Figure } from './figure.ts';
import { lampPhrase } from './lit.ts';
import { mapLayout } from './mapLayout.ts';
import { markedPlaces } from './markedPlaces.ts';
import { makePlates, type Plates } from './plates.ts';

/** A figure of the report on two dates. */
export type ChangeFigure = Omit<Figure, 'id'> & { readonly id: 'dates' | 'change' };

/** The two dates under one lamp, and, where they could be compared, the map of what changed. */
export function changeFigures(comparison: ChangeComparison, across?: number): ChangeFigure[] {
  const { result } = comparison;
  const plates = makePlates(pairOfDates(comparison), across);
  const dates = datesFigure(comparison, plates);
  return result.judged ? [dates, mapFigure(comparison, result, plates)] : [dates];
}

function datesFigure({ earlier, later, result }: ChangeComparison, plates: Plates): ChangeFigure {
  const panels = [
    { relief: plates.reference, label: 'Earlier', note: noteOf(earlier) },
    { relief: plates.subject, label: 'Later', note: noteOf(later) },
  ];
  const { drawing } = panelsDrawing(panels, plates);
  const laid = result.judged
    ? 'The later is laid as the parts that did not change put it, at its own size.'
    : 'Each face lies as it was found on its scan.';
  return {
    id: 'dates',
    drawing,
    heading: 'The two dates',
    caption: `One scale and one light throughout: ${lampPhrase}, locked to the picture. ${laid} The form of each face (a plane and a second-order bend) is removed; blank where there is no data.`,
  };
}

const noteOf = ({ face, scan }: PreparedScan): string =>
  face.sense === 'intaglio' ? `${scan.name}, turned over as its impression` : scan.name;

const tallest = 520;

const changeLegend: typeof pairLegend = {
  title: 'change of height, mm',
  higher: 'later stands higher',
  none: 'grey: no change',
  noneMore: 'that counts',
  lower: 'later stands lower',
  outline: 'change, with its name in the table',
};

/** What is drawn of a change: the map in the impression's sense, what of it counts, and the end of its colours, mm. */
export function changeMap(earlier: PreparedScan, found: ChangeFound): DrawnDifference & { readonly endMm: number } {
  const { face } = earlier;
  const levelOfDetectionMm = median(found.least.z.filter((value) => value > 0));
  return {
    map: inImpressionSense(found.map, face),
    levelOfDetection: inImpressionSense(found.least, face),
    levelOfDetectionMm,
    significant: inImpressionSense(withHeights(found.map, found.map.z, found.changed), face).mask,
    endMm: endOf(found, levelOfDetectionMm),
  };
}

function mapFigure({ earlier }: ChangeComparison, found: ChangeFound, plates: Plates): ChangeFigure {
  const drawn = changeMap(earlier, found);
  const { endMm, levelOfDetectionMm: levelMm } = drawn;
  const layout = mapLayout(plates.ground.grid, tallest);
  const { to } = layout;
  const rim = hours(plates.referenceRim, to);
  const marks: DrawnMark[] = [
    layout.map(differencePicture(drawn, plates, endMm)),
    ...rim,
    ...markedPlaces(found.changes, plates, to, rim),
    ...layout.bar(),
    ...layout.legend(differenceLegend(endMm, levelMm, found.changes.length > 0, false, changeLegend)),
  ];
  const drawing: Drawing = {
    width: layout.width,
    height: layout.height,
    title: `Map of what changed, scale from −${endMm} to +${endMm} mm`,
    marks,
  };
  return { id: 'change', drawing, heading: 'What changed', caption: captionOf(found, endMm) };
}

function endOf({ changes }: ChangeFound, levelMm: number): number {
  const farthest = Math.max(2.5 * levelMm, ...changes.map(({ farthestMm }) => Math.abs(farthestMm) || 0));
  return easyEnds.find((end) => end >= farthest) ?? easyEnds[easyEnds.length - 1];
}

function captionOf({ noise, sensitivity }: ChangeFound, endMm: number): string {
  const from = { pair: 'the two scans', oneRepeat: 'a repeat', repeats: 'the repeats' }[noise.from];
  const four = sensitivity.find(({ areaMm2 }) => areaMm2 === 4) ?? sensitivity[0];
  return `Later less earlier over the relief of the earlier, after the registration on what did not change; a Gaussian mean of a fifth of a millimetre. Coloured only where a mean, at some scale or along some line, stands out beyond what noise gives anywhere on the face with a chance of one in twenty; grey elsewhere. Orange: the later stands lower; purple: higher. Colours end at ± ${endMm} mm. Noise was read from ${from}; an even change of ${Math.round(1000 * four.heightMm)} µm over ${four.areaMm2} mm² is the least that counts.`;
}
