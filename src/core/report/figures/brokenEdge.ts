import type { EdgeInCommon } from '../../condition/index.ts';
import { chosenModel } from '../../fit/index.ts';
import { apply } from '../../geometry/index.ts';
import { type DrawnMark, line } from '../drawing/index.ts';
import type { LaidPair } from '../input.ts';
import { panelLayout, panelsDrawing, panelsOf } from './faces.ts';
import { type Figure, numeralMm } from './figure.ts';
import { lampPhrase, onRelief } from './lit.ts';
import type { Plates } from './plates.ts';

/** Two positives beside one another, and on each the stretches of the edge along which both are broken. */
export function brokenEdgeFigure(pair: LaidPair, edge: EdgeInCommon, plates: Plates): Figure {
  const panels = panelsOf(pair, plates);
  const { drawing } = panelsDrawing(panels, plates);
  const { wide, high, corner } = panelLayout(panels.length, plates.reference.grid);
  const [x, y] = corner(0);
  return {
    id: 'brokenEdge',
    heading: 'The edge along which both are broken',
    seal: { x, y, width: wide, height: high },
    drawing: {
      ...drawing,
      title: `The broken edge that both share, drawn on ${drawing.title}`,
      marks: [...drawing.marks, ...edgeOn(pair, edge, plates)],
    },
    caption: `Both faces in the impression’s sense at one scale, b as the fit turned it; ${lampPhrase}. Red, on both: ${edge.lengthMm.toFixed(0)} mm of the broken edge of a, which that of b follows to ${numeralMm(edge.apartMm)} (root mean square) where it strays by ${numeralMm(edge.roughMm)} from a smooth curve.`,
  };
}

/** The stretches on both panels; the second shows its face at its own size. */
function edgeOn({ fit }: LaidPair, { stretches }: EdgeInCommon, plates: Plates): DrawnMark[] {
  const { left, top, pitch } = plates.reference.grid;
  const { perMm, corner } = panelLayout(2, plates.reference.grid);
  return [1, chosenModel(fit)?.scale ?? 1].flatMap((scale, panel) => {
    const [x0, y0] = corner(panel);
    return stretches.flatMap((way) => {
      const points: number[] = [];
      for (let k = 0; k < way.length; k += 2) {
        const [x, y] = apply(plates.plateFromReference, [way[k], way[k + 1], 0]);
        points.push(x0 + (x / scale - left + pitch / 2) * perMm, y0 + (top + pitch / 2 - y / scale) * perMm);
      }
      return [line(points, onRelief.halo, 3.4), line(points, onRelief.stroke, 1.8)];
    });
  });
}
