import { scaleBarMm } from '../../plate/project.ts';
import { type Grey, toned } from '../face/toned.ts';

/** One picture of a file: what is drawn, how wide its cells are, and what stands under it. */
export interface PicturePart {
  readonly picture: Grey;
  readonly pitch: number;
  readonly words: string;
}

const paper = '#fbf8f1';
const ink = '#241f19';
const tones = { dark: '#2a241d', light: '#fbf4e6' };
const edge = 24;
const line = 23;

/** Pictures under one another at one scale, each with its words, and a scale bar, as a PNG. */
export function pictureFile(parts: readonly PicturePart[], foot: string): Promise<Blob | null> {
  const widthMm = Math.max(...parts.map(({ picture, pitch }) => picture.width * pitch));
  const pxPerMm = Math.max(1 / Math.min(...parts.map(({ pitch }) => pitch)), 1400 / widthMm);
  const width = Math.ceil(widthMm * pxPerMm) + 2 * edge;
  const measure = sheet(10, 10).context;
  const wrapped = [...parts.map(({ words }) => words), foot].map((words) => wrap(measure, words, width - 2 * edge));
  const heights = parts.map(({ picture, pitch }) => picture.height * pitch * pxPerMm);
  const height = Math.ceil(
    2 * edge + heights.reduce((sum, each) => sum + each + 10, 0) + wrapped.flat().length * line + 44,
  );
  const { canvas, context } = sheet(width, height);
  let y = edge;
  for (const [k, { picture, pitch }] of parts.entries()) {
    const cell = sheet(picture.width, picture.height);
    cell.context.clearRect(0, 0, picture.width, picture.height);
    cell.context.putImageData(toned(picture, tones), 0, 0);
    const wide = picture.width * pitch * pxPerMm;
    context.drawImage(cell.canvas, (width - wide) / 2, y, wide, heights[k]);
    y = written(context, wrapped[k], y + heights[k] + 4) + 6;
  }
  bar(context, pxPerMm, y + 14);
  written(context, wrapped[parts.length], y + 26);
  return new Promise((done) => canvas.toBlob(done, 'image/png'));
}

function sheet(width: number, height: number) {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext('2d') as CanvasRenderingContext2D;
  context.fillStyle = paper;
  context.fillRect(0, 0, width, height);
  context.imageSmoothingQuality = 'high';
  context.font = '17px Alegreya, Georgia, serif';
  return { canvas, context };
}

function wrap(context: CanvasRenderingContext2D, words: string, width: number): string[] {
  const lines: string[] = [];
  let now = '';
  for (const word of words.split(' ')) {
    const longer = now === '' ? word : `${now} ${word}`;
    if (now !== '' && context.measureText(longer).width > width) {
      lines.push(now);
      now = word;
    } else now = longer;
  }
  return now === '' ? lines : [...lines, now];
}

function written(context: CanvasRenderingContext2D, lines: readonly string[], top: number): number {
  context.fillStyle = ink;
  context.font = '17px Alegreya, Georgia, serif';
  lines.forEach((words, i) => {
    context.fillText(words, edge, top + 16 + i * line);
  });
  return top + lines.length * line;
}

function bar(context: CanvasRenderingContext2D, pxPerMm: number, y: number): void {
  const mm = scaleBarMm(pxPerMm, 200);
  context.strokeStyle = ink;
  context.lineWidth = 1.5;
  context.beginPath();
  context.moveTo(edge, y - 5);
  context.lineTo(edge, y);
  context.lineTo(edge + mm * pxPerMm, y);
  context.lineTo(edge + mm * pxPerMm, y - 5);
  context.stroke();
  context.fillStyle = ink;
  context.fillText(`${mm} mm`, edge + mm * pxPerMm + 8, y + 1);
}
