import { toSvg } from '../drawing/index.ts';
import { type Figure, type FigureId, figureIds } from '../figures/index.ts';
import { safe, section } from './html.ts';

/** The figures of one report, each with its number, and where they have been printed already. */
export interface Numbering {
  /** The whole figure with number and heading; its caption follows in the annex. Empty where there is no such figure. */
  plate(id: FigureId, kind: string): string;
  /** The seal of a figure alone, small. */
  miniature(id: FigureId): string;
  /** " (Fig. 4)", or nothing. */
  mention(id: FigureId): string;
  /** Every figure that was not printed whole, and the captions of all. */
  annex(): string;
}

/** The figures in the order of the page: those named `first`, then the others as they are listed. */
export function numberFigures(figures: readonly Figure[], first: readonly string[]): Numbering {
  const order = [...first, ...figureIds.filter((id) => !first.includes(id))];
  const ordered = order.flatMap((id) => figures.filter((figure) => figure.id === id));
  const printed = new Set<FigureId>();
  const find = (id: FigureId): Figure | undefined => ordered.find((figure) => figure.id === id);
  const place = (id: FigureId): number => ordered.findIndex((figure) => figure.id === id) + 1;
  const short = (figure: Figure): string =>
    `<figcaption><span class="sc">Fig. ${place(figure.id)}</span> <i>${safe(figure.heading)}.</i>${figure.simulated ? ' Simulated scans.' : ''}</figcaption>`;
  return {
    plate(id, kind) {
      const figure = find(id);
      if (!figure) return '';
      printed.add(id);
      return `<figure id="figure-${id}" class="${kind}">${toSvg(figure.drawing)}\n${short(figure)}</figure>`;
    },
    miniature(id) {
      const figure = find(id);
      return figure ? `<figure>${toSvg(figure.drawing, { crop: figure.seal })}\n${short(figure)}</figure>` : '';
    },
    mention: (id) => (find(id) ? ` (Fig. ${place(id)})` : ''),
    annex: () =>
      ordered.length === 0
        ? ''
        : section(
            'figures',
            'Figures',
            ordered
              .map((figure) => (printed.has(figure.id) ? captionOnly(figure, place) : whole(figure, place)))
              .join('\n'),
          ),
  };
}

const captionOf = ({ id, heading, caption }: Figure, place: (id: FigureId) => number): string =>
  `<span class="sc">Fig. ${place(id)}</span> <i>${safe(heading)}.</i> ${safe(caption)}`;

const captionOnly = (figure: Figure, place: (id: FigureId) => number): string =>
  `<p class="caption">${captionOf(figure, place)}</p>`;

const whole = (figure: Figure, place: (id: FigureId) => number): string =>
  `<figure id="figure-${figure.id}"${figure.drawing.width < 400 ? ' class="small"' : ''}>${toSvg(figure.drawing)}
<figcaption>${captionOf(figure, place)}</figcaption></figure>`;
