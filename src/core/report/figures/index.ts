import { type Section, scaleEnd } from '../../compare/index.ts';
import { words } from '../drawing/index.ts';
import type { Comparison } from '../input.ts';
import { cellsFigure } from './cells.ts';
import { constellationFigure } from './constellation.ts';
import { differenceFigure } from './difference.ts';
import { distributionFigure } from './distribution.ts';
import { facesFigure } from './faces.ts';
import type { Figure } from './figure.ts';
import { lineSectionsFigure } from './lineSections.ts';
import { makePlates } from './plates.ts';
import { hasProfile, sectionFigure } from './section.ts';
import { wavelengthsFigure } from './wavelengths.ts';

export { type Figure, type FigureId, figureIds } from './figure.ts';

/**
 * The figures that this comparison allows, in the order of the page: the faces always; the rest only where a fit was
 * found and there is something to draw. Simulated scans are called so in every figure and caption.
 */
export function makeFigures(comparison: Comparison, section?: Section, across?: number, simulated = false): Figure[] {
  const figures = drawFigures(comparison, section, across);
  return simulated ? figures.map(markSimulated) : figures;
}

function drawFigures(comparison: Comparison, section?: Section, across?: number): Figure[] {
  const { difference, judgement } = comparison;
  const plates = makePlates(comparison, across);
  const figures = [facesFigure(comparison, plates)];
  if (!difference) return figures;
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
