import { type Drawing, type PlateFormat, type PrintPlate, paintPlate } from '../../../core/report/index.ts';

const mime: Readonly<Record<PlateFormat, string>> = {
  png: 'image/png',
  tif: 'image/tiff',
  tiff: 'image/tiff',
  svg: 'image/svg+xml',
};

/** A plate as a file. Its dots go in untouched; paper, bars and words are drawn with the page's own typeface. */
export async function plateFile(plate: PrintPlate, format: PlateFormat): Promise<Blob> {
  // Words are measured as they are drawn: the typeface has to be there.
  await Promise.all(['16px Alegreya', 'italic 16px Alegreya'].map((font) => document.fonts.load(font)));
  const file = paintPlate(plate, format, (_, across) => sheetOf(plate.drawing, across));
  return new Blob([file as Uint8Array<ArrayBuffer> | string], { type: mime[format] });
}

const tones: Readonly<Record<string, string>> = { ink: '#25211b', soft: '#6b6254' };

/** Paper, lines and words of a plate, so many pixels across. */
function sheetOf({ width, height, marks }: Drawing, across: number) {
  const canvas = document.createElement('canvas');
  canvas.width = across;
  canvas.height = Math.round((across * height) / width);
  const context = canvas.getContext('2d', { willReadFrequently: true }) as CanvasRenderingContext2D;
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.lineJoin = 'round';
  context.lineCap = 'round';
  // Letters are set at their size in pixels: a typeface that is scaled up afterwards keeps the rounded widths of a small one.
  const scale = across / width;
  for (const mark of marks) {
    const tone = 'tone' in mark ? (tones[mark.tone] ?? mark.tone) : '';
    if (mark.kind === 'line') {
      context.strokeStyle = tone;
      context.lineWidth = scale * mark.width;
      context.setLineDash((mark.dash ?? []).map((length) => scale * length));
      context.stroke(pathOf(mark.points, scale, mark.closed === true));
    } else if (mark.kind === 'text') {
      context.fillStyle = tone;
      context.font = `${mark.face === 'italic' ? 'italic ' : ''}${scale * mark.size}px Alegreya, Georgia, serif`;
      context.textAlign = mark.align === 'middle' ? 'center' : (mark.align ?? 'start');
      context.fillText(mark.text, scale * mark.x, scale * mark.y);
    }
  }
  const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
  return { width: canvas.width, height: canvas.height, rgba: new Uint8Array(data.buffer) };
}

function pathOf(points: ArrayLike<number>, scale: number, closed: boolean): Path2D {
  const path = new Path2D();
  for (let i = 0; i + 1 < points.length; i += 2)
    path[i === 0 ? 'moveTo' : 'lineTo'](scale * points[i], scale * points[i + 1]);
  if (closed) path.closePath();
  return path;
}
