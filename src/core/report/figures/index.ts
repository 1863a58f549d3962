import { type Difference, type Section, scaleEnd } from '../../compare/index.ts';
import type { Judgement } from '../../judge/index.ts';
import { words } from '../drawing/index.ts';
import type { Comparison, LaidPair, MeasuredPair } from '../input.ts';
import { brokenEdgeFigure } from './brokenEdge.ts';
import { cellsFigure } from './cells.ts';
import { constellationFigure } from './constellation.ts';
import { differenceFigure } from './difference.ts';
import { distributionFigure } from './distribution.ts';
import { facesFigure } from './faces.ts';
import { type Figure, figureIds } from './figure.ts';
import { lineSectionsFigure } from './lineSections.ts';
import { makePlates, type Plates } from './plates.ts';
import { hasProfile, sectionFigure } from './section.ts';
import { wavelengthsFigure } from './wavelengths.ts';

export { type Figure, type FigureId, figureIds } from './figure.ts';

/** What is drawn of a report while its pair is still judged. */
export interface Begun {
  readonly plates: Plates;
  readonly simulated: boolean;
  readonly faces: Figure;
  /** Figures that need nothing of marks and wear; null where the finding itself hangs on these, or nothing was measured. */
  readonly unmarked: readonly Figure[] | null;
}

/** The plates and the figure of the two faces: all that needs nothing measured. */
export function drawFaces(pair: LaidPair, across?: number, simulated = false): Begun {
  const plates = makePlates(pair, across);
  return { plates, simulated, faces: signed(simulated)(facesFigure(pair, plates)), unmarked: null };
}

/** Then those that need nothing of marks and wear; none where the finding itself hangs on these. */
export function drawUnmarked({ difference, weighed, places }: MeasuredPair, begun: Begun): Begun {
  if (!difference || !weighed || !places?.places) return begun;
  const shown = { difference, cells: places.places.tiles, constellation: weighed.constellation };
  return { ...begun, unmarked: unmarkedFigures(shown, begun) };
}

/**
 * The figures that this comparison allows, in the order of the page: the faces always; the rest only where a fit was
 * found and there is something to draw. Simulated scans are called so in every figure and caption. `begun`: drawn before.
 */
export function makeFigures(
  comparison: Comparison,
  section?: Section,
  across?: number,
  simulated = false,
  begun: Begun = drawFaces(comparison, across, simulated),
): Figure[] {
  const { difference, judgement } = comparison;
  if (!difference) return [begun.faces];
  const drawn = [
    begun.faces,
    ...(begun.unmarked ?? unmarkedFigures({ difference, ...judgement }, begun)),
    ...markedFigures(comparison, difference, begun, section),
  ];
  return figureIds.flatMap((which) => drawn.filter(({ id }) => id === which));
}

type Shown = Pick<Judgement, 'cells' | 'constellation'> & { readonly difference: Difference };

function unmarkedFigures({ difference, cells, constellation }: Shown, { plates, simulated }: Begun): Figure[] {
  const figures = [distributionFigure(difference, scaleEnd(difference))];
  if (cells.cells.length > 0) figures.push(cellsFigure(cells, plates));
  if (constellation && constellation.landmarks.length > 1) figures.push(constellationFigure(constellation, plates));
  return figures.map(signed(simulated));
}

function markedFigures(
  comparison: Comparison,
  difference: Difference,
  { plates, simulated }: Begun,
  section?: Section,
): Figure[] {
  const { wear, damage, descent, descentBy } = comparison.judgement;
  const drawn = section && hasProfile(section) ? section : undefined;
  const figures = [differenceFigure(comparison, difference, plates, scaleEnd(difference), drawn)];
  if (descent && descentBy.edge) figures.push(brokenEdgeFigure(comparison, descentBy.edge, plates));
  if (wear.byWavelength.length > 0) figures.push(wavelengthsFigure(wear.byWavelength));
  if (drawn) figures.push(sectionFigure(drawn, comparison.reference.face.sense));
  const lines = lineSectionsFigure(damage);
  if (lines) figures.push(lines);
  return figures.map(signed(simulated));
}

const signed =
  (simulated: boolean) =>
  (figure: Figure): Figure =>
    simulated ? markSimulated(figure) : figure;

function markSimulated(figure: Figure): Figure {
  const { drawing, caption } = figure;
  const sign = words(drawing.width - 2, drawing.height - 2, 'simulated', 9.5, 'soft', { align: 'end', face: 'italic' });
  return {
    ...figure,
    simulated: true,
    caption: `Simulated scans. ${caption}`,
    drawing: { ...drawing, title: `${drawing.title} (simulated)`, marks: [...drawing.marks, sign] },
  };
}
