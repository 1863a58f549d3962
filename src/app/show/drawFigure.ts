import { escapeXml } from '../../core/scan/index.ts';
import type { Figure, Item } from './figure.ts';

const face = 'Alegreya, Georgia, serif';

/** The figure as a picture file, `scale` pixels per CSS pixel. */
export function figurePng(figure: Figure, scale: number): Promise<Blob | null> {
  const canvas = document.createElement('canvas');
  canvas.width = figure.width * scale;
  canvas.height = figure.height * scale;
  const pen = canvas.getContext('2d');
  if (pen) {
    pen.scale(scale, scale);
    pen.fillStyle = figure.paper;
    pen.fillRect(0, 0, figure.width, figure.height);
    pen.drawImage(figure.seals, 0, 0, figure.width, figure.sealsHeight);
    for (const item of figure.items) drawItem(pen, item);
  }
  return new Promise((resolve) => canvas.toBlob(resolve, 'image/png'));
}

function drawItem(pen: CanvasRenderingContext2D, item: Item): void {
  if (item.is === 'bar') {
    pen.fillStyle = item.colour;
    pen.fillRect(item.x, item.y, item.width, item.height);
  } else if (item.is === 'text') {
    pen.font = `${item.italic ? 'italic ' : ''}${item.size}px ${face}`;
    pen.textAlign = item.align === 'middle' ? 'center' : item.align;
    pen.fillStyle = item.colour;
    pen.fillText(item.words, item.x, item.y);
  } else {
    pen.strokeStyle = item.colour;
    pen.lineWidth = item.width;
    pen.stroke(new Path2D(pathOf(item)));
  }
}

const pathOf = (item: Item & { is: 'line' }): string =>
  `M${item.points.map(([x, y]) => `${x.toFixed(2)} ${y.toFixed(2)}`).join('L')}${item.closed ? 'Z' : ''}`;

/** The figure as SVG: the seals as a picture inside, everything drawn over them as lines and words that stay editable. */
export function figureSvg(figure: Figure): Blob {
  const { width, height } = figure;
  const parts = figure.items.map(svgItem).join('\n');
  const picture = `<image width="${width}" height="${figure.sealsHeight}" href="${figure.seals.toDataURL('image/png')}"/>`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="${face}">
<rect width="100%" height="100%" fill="${figure.paper}"/>
${picture}
${parts}
</svg>`;
  return new Blob([svg], { type: 'image/svg+xml' });
}

function svgItem(item: Item): string {
  if (item.is === 'bar')
    return `<rect x="${item.x}" y="${item.y}" width="${item.width}" height="${item.height}" fill="${item.colour}"/>`;
  if (item.is === 'line')
    return `<path d="${pathOf(item)}" fill="none" stroke="${item.colour}" stroke-width="${item.width}"/>`;
  const style = item.italic ? ' font-style="italic"' : '';
  return `<text x="${item.x}" y="${item.y}" font-size="${item.size}" text-anchor="${item.align}" fill="${item.colour}"${style}>${escapeXml(item.words)}</text>`;
}
