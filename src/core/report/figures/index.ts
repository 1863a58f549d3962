import { type Section, scaleEnd } from '../../compare/index.ts';
import { words } from '../drawing/index.ts';
import type { Comparison, LaidPair } from '../input.ts';
import { brokenEdgeFigure } from './brokenEdge.ts';
import { cellsFigure } from './cells.ts';
import { constellationFigure } from './constellation.ts';
import { differenceFigure } from './difference.ts';
import { distributionFigure } from './distribution.ts';
import { facesFigure } from './faces.ts';
import type { Figure } from './figure.ts';
import { lineSectionsFigure } from './lineSections.ts';
import { makePlates, type Plates } from './plates.ts';
import { hasProfile, sectionFigure } from './section.ts';
import { wavelengthsFigure } from './wavelengths.ts';

export { type Figure, type FigureId, figureIds } from './figure.ts';

/** What is drawn before anything is measured: the plates, and the figure of the two faces. */
export interface DrawnFaces {
  readonly plates: Plates;
  readonly figure: Figure;
}

export function drawFaces(pair: LaidPair, across?: number, simulated = false): DrawnFaces {
  const plates = makePlates(pair, across);
  const figure = facesFigure(pair, plates);
  return { plates, figure: simulated ? markSimulated(figure) : figure };
}

/**
 * The figures that this comparison allows, in the order of the page: the faces always; the rest only where a fit was
 * found and there is something to draw. Simulated scans are called so in every figure and caption. `faces`: drawn before.
 */
export function makeFigures(
  comparison: Comparison,
  section?: Section,
  across?: number,
  simulated = false,
  { plates, figure }: DrawnFaces = drawFaces(comparison, across, simulated),
): Figure[] {
  const measured = drawMeasured(comparison, plates, section);
  return [figure, ...(simulated ? measured.map(markSimulated) : measured)];
}

function drawMeasured(comparison: Comparison, plates: Plates, section?: Section): Figure[] {
  const { difference, judgement } = comparison;
  const figures: Figure[] = [];
  if (!difference) return figures;
  const { descent, descentBy } = judgement;
  if (descent && descentBy.edge) figures.push(brokenEdgeFigure(comparison, descentBy.edge, plates));
  const endMm = scaleEnd(difference);
  const drawn = section && hasProfile(section) ? section : undefined;
  figures.push(differenceFigure(comparison, difference, plates, endMm, drawn), distributionFigure(difference, endMm));
  if (judgement.wear.byWavelength.length > 0) figures.push(wavelengthsFigure(judgement.wear.byWavelength));
  if (drawn) figures.push(sectionFigure(drawn, comparison.reference.face.sense));
  if (judgement.cells.cells.length > 0) figures.push(cellsFigure(judgement.cells, plates));
  if (judgement.constellation && judgement.constellation.landmarks.length > 1)
    figures.push(constellationFigure(judgement.constellation, plates));
  const lines = lineSectionsFigure(judgement.damage);
  if (lines) figures.push(lines);
  return figures;
}

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
