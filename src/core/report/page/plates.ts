import { toSvg } from '../drawing/index.ts';
import { type Figure, figureIds } from '../figures/index.ts';
import { safe, section } from './html.ts';

/** The figures with their captions, numbered in the order of the page; the two small graphs side by side. */
export function figuresSection(figures: readonly Figure[]): string {
  if (figures.length === 0) return '';
  const ordered = figureIds.flatMap((id) => figures.filter((figure) => figure.id === id));
  const parts: string[] = [];
  for (let i = 0; i < ordered.length; i++) {
    const [here, next] = [ordered[i], ordered[i + 1]];
    if (here.drawing.width < 400 && next?.drawing.width < 400 && next.id !== 'cells') {
      parts.push(`<div class="side-by-side">${plate(here, i + 1)}${plate(next, i + 2)}</div>`);
      i++;
    } else parts.push(plate(here, i + 1));
  }
  return section('figures', 'Figures', parts.join('\n'));
}

function plate({ id, drawing, heading, caption }: Figure, place: number): string {
  const small = drawing.width < 400 ? ' class="small"' : '';
  return `<figure id="figure-${id}"${small}>${toSvg(drawing)}
<figcaption><span class="sc">Fig. ${place}</span> <i>${safe(heading)}.</i> ${safe(caption)}</figcaption></figure>`;
}
