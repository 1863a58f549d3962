import { escapeXml } from '../../scan/index.ts';
import { base64 } from './base64.ts';
import {
  type Box,
  type Drawing,
  type DrawnMark,
  type Picture,
  paperTones,
  type TextMark,
  type Tone,
} from './drawing.ts';
import { type Deflate, writePng } from './writePng.ts';

/** Old-style serifs that come with the common systems; the page may put its own before them. */
export const serifs = "Alegreya, 'Iowan Old Style', 'Palatino Linotype', Palatino, P052, Georgia, serif";

export interface SvgOptions {
  /** Paper behind the drawing, for a file that stands on its own. */
  readonly paper?: boolean;
  /** No paper behind it all the same: the marks will be laid on something else. */
  readonly clear?: boolean;
  /** Only this part of the drawing. */
  readonly crop?: Box | undefined;
}

/**
 * The drawing as SVG. In a page, tones are custom properties with the printed paper's colour behind them, so that the
 * page can change them; a file on its own has plain colours and the older kind of link, for programs that know no others.
 */
export function toSvg(drawing: Drawing, { paper = false, clear = false, crop }: SvgOptions = {}): string {
  const { title, marks } = drawing;
  const { x, y, width, height } = crop ?? { x: 0, y: 0, width: drawing.width, height: drawing.height };
  const ground = paper && !clear ? `<rect width="${n(width)}" height="${n(height)}" fill="${paperTones.paper}"/>` : '';
  const links = paper ? ' xmlns:xlink="http://www.w3.org/1999/xlink"' : '';
  const box = `${n(x)} ${n(y)} ${n(width)} ${n(height)}`;
  const head = `<svg xmlns="http://www.w3.org/2000/svg"${links} viewBox="${box}"`;
  const size = paper ? ` width="${n(width)}" height="${n(height)}"` : '';
  const style = `font-family="${serifs}" style="font-variant-numeric:lining-nums" stroke-linejoin="round" stroke-linecap="round"`;
  const all = marks.map((mark) => markSvg(mark, paper)).join('\n');
  // In a wider frame the rest of the drawing would show beside what was cut out of it.
  const [w, h] = [n(width), n(height)];
  const body = crop ? `<svg x="${n(x)}" y="${n(y)}" width="${w}" height="${h}" viewBox="${box}">${all}</svg>` : all;
  return `${head}${size} role="img" ${style}>\n<title>${escapeXml(title)}</title>\n${ground}${body}\n</svg>`;
}

/** Two decimals are a hundredth of a page unit: below any printer. */
const n = (value: number): string => String(Number(value.toFixed(2)));

const paint = (tone: Tone, paper: boolean): string => {
  if (tone.startsWith('#')) return tone;
  return paper ? paperTones[tone] : `var(--${tone}, ${paperTones[tone]})`;
};

/** A picture stands in the page and in a file of its own; it is packed once. */
const packed = new WeakMap<Picture, string>();

function pictureUri(picture: Picture, deflate?: Deflate): string {
  const uri = packed.get(picture) ?? `data:image/png;base64,${base64(packPicture(picture, deflate))}`;
  packed.set(picture, uri);
  return uri;
}

/** Packs the pictures of a drawing that is about to become SVG, with a deflate that is quicker than the core's own. */
export function packPictures({ marks }: Drawing, deflate: Deflate): void {
  for (const mark of marks) if (mark.kind === 'picture') pictureUri(mark.picture, deflate);
}

/** Grey with clear places takes one byte a pixel: index 0 is clear, the others are greys. */
function packPicture({ width, height, channels, data }: Picture, deflate?: Deflate): Uint8Array {
  if (channels !== 2) return writePng({ width, height, channels, data }, deflate);
  return writePng({ width, height, channels: 1, data: greyIndices(data), palette: greyPalette }, deflate);
}

const greyPalette = Array.from({ length: 256 }, (_, grey) => [grey, grey, grey, grey === 0 ? 0 : 255]);

function greyIndices(data: Uint8Array): Uint8Array {
  const out = new Uint8Array(data.length / 2);
  for (let i = 0; i < out.length; i++) out[i] = data[2 * i + 1] === 0 ? 0 : Math.max(1, data[2 * i]);
  return out;
}

function markSvg(mark: DrawnMark, paper: boolean): string {
  switch (mark.kind) {
    case 'picture': {
      const box = `x="${n(mark.x)}" y="${n(mark.y)}" width="${n(mark.width)}" height="${n(mark.height)}"`;
      const uri = pictureUri(mark.picture);
      return `<image ${box} preserveAspectRatio="none" ${paper ? 'xlink:href' : 'href'}="${uri}"/>`;
    }
    case 'line': {
      const dash = mark.dash ? ` stroke-dasharray="${mark.dash.map(n).join(' ')}"` : '';
      const stroke = `fill="none" style="stroke:${paint(mark.tone, paper)}" stroke-width="${n(mark.width)}"${dash}`;
      return `<path d="${path(mark.points, mark.closed === true)}" ${stroke}/>`;
    }
    case 'area': {
      const opacity = mark.opacity === undefined || mark.opacity === 1 ? '' : ` fill-opacity="${n(mark.opacity)}"`;
      return `<path d="${path(mark.points, true)}" style="fill:${paint(mark.tone, paper)}" fill-rule="evenodd"${opacity}/>`;
    }
    case 'text':
      return textSvg(mark, paper);
  }
}

function path(points: ArrayLike<number>, closed: boolean): string {
  let d = '';
  for (let i = 0; i + 1 < points.length; i += 2) d += `${i === 0 ? 'M' : 'L'}${n(points[i])} ${n(points[i + 1])}`;
  return closed ? `${d}Z` : d;
}

function textSvg(mark: TextMark, paper: boolean): string {
  const { x, y, align = 'start', face = 'plain', rim } = mark;
  const place = mark.upward ? `transform="translate(${n(x)} ${n(y)}) rotate(-90)"` : `x="${n(x)}" y="${n(y)}"`;
  const italic = face === 'italic' ? ' font-style="italic"' : '';
  const capitals = face === 'capitals' ? ';font-variant-caps:all-small-caps;letter-spacing:.06em' : '';
  const edge = rim ? `;stroke:${paint(rim, paper)};stroke-width:2.4;paint-order:stroke` : '';
  const style = `style="fill:${paint(mark.tone, paper)}${capitals}${edge}"`;
  return `<text ${place} font-size="${n(mark.size)}" text-anchor="${align}"${italic} ${style}>${escapeXml(mark.text)}</text>`;
}
