import { type Edged, type Face, sealOrPiece } from '../../face/index.ts';
import { type CardLanguage, cardWords, light, type View, viewGrid } from '../../read/index.ts';
import type { Kind } from '../../scan/index.ts';
import type { Drawing, DrawnMark } from '../drawing/index.ts';
import { line, words } from '../drawing/index.ts';
import { fieldGrey, plateLamps } from '../figures/lit.ts';
import { barLength, scaleBar } from '../figures/scaleBar.ts';
import { captionWords, lampWords, printed, viewWords } from '../words/index.ts';
import { captionMarks, letterWide } from './captionLines.ts';
import { type DrawDots, litDots, type PlacedPicture, type PlateSurroundings } from './litDots.ts';
import { type PrintedLightOptions, type PrintedLook, printedLight } from './printedLight.ts';

/** One object on a printed plate. */
export interface PlateObject {
  readonly face: Edged & Pick<Face, 'sense'>;
  readonly view: View;
  readonly kind: Kind | 'fragments';
  /** Shelfmark, or nothing. */
  readonly shelfmark?: string | undefined;
  /** What is drawn where there is no data, x and y in mm as in the picture: an outline, dashed, and words beside it. */
  readonly around?: PlateSurroundings | undefined;
}

export interface PrintOptions extends PrintedLightOptions {
  /** Size on paper ÷ size of the object: 1 is natural size. */
  readonly printScale: number;
  /** Dots per inch. */
  readonly dpi: number;
  /** In place of the lamps. */
  readonly look?: PrintedLook | undefined;
  /** Who owns the object and the scan, as it is to be printed. */
  readonly credit?: string | undefined;
  readonly simulated?: boolean;
  /** Of the words on the plate; English where not stated. */
  readonly language?: CardLanguage | undefined;
  /** Said in the caption besides, after what is simulated. */
  readonly said?: string | undefined;
}

/** A plate as it is printed: lengths in points of 1/72 inch, and the pictures in whole dots. */
export interface PrintPlate {
  /** Without the pictures: paper, bars and words. */
  readonly drawing: Drawing;
  readonly pictures: readonly PlacedPicture[];
  readonly dpi: number;
  readonly caption: string;
}

const pointsPerInch = 72;
const mmPerInch = 25.4;
/** Points: round the plate, between objects, and under each picture for its bar and words. */
const [margin, gap, under] = [14, 20, 52];

/**
 * Any number of objects on one plate at one scale under the same lamps, each with a scale bar; a light and what is shown
 * are said underneath. A dot is `25.4 / dpi / printScale` mm of the object, sampled with a cubic from the relief with its
 * form removed, averaged first where dots are coarser than the scan.
 */
export function printPlate(objects: readonly PlateObject[], options: PrintOptions): PrintPlate {
  const { printScale, dpi } = options;
  const dotMm = mmPerInch / dpi / printScale;
  const dotsPerPoint = dpi / pointsPerInch;
  const whole = (points: number): number => Math.round(points * dotsPerPoint);
  const lit = objects.map(({ face, view, around }) =>
    litDots(viewGrid(face.detail, view), dotMm, drawing(options), around),
  );
  const tallest = Math.max(...lit.map(({ height }) => height));
  const marks: DrawnMark[] = [];
  const pictures: PlacedPicture[] = [];
  let column = whole(margin);
  lit.forEach(({ box, ...picture }, i) => {
    const name = nameOf(objects[i], options);
    // Words under a small seal are wider than it.
    const across = Math.max(picture.width, whole(letterWide * nameSize * name.length));
    const left = column + ((across - picture.width) >> 1);
    const top = whole(margin) + tallest - picture.height;
    pictures.push({ ...picture, left, top });
    const { around } = objects[i];
    const point = (x: number, y: number): [number, number] => [
      (left + (x - box.left) / dotMm) / dotsPerPoint,
      (top + (box.top - y) / dotMm) / dotsPerPoint,
    ];
    if (around) marks.push(...surroundingMarks(around, point));
    const middle = (left + picture.width / 2) / dotsPerPoint;
    const under = { middle, y: margin + tallest / dotsPerPoint, widthMm: picture.width * dotMm };
    marks.push(...panelMarks(objects[i], name, under, options));
    column += across + whole(gap);
  });
  const width = (column - whole(gap)) / dotsPerPoint + margin;
  const bottom = margin + tallest / dotsPerPoint + under;
  const caption = printCaption(options);
  const lines = captionMarks(caption, margin, bottom, width - 2 * margin);
  marks.push(...lines.marks);
  const height = bottom + lines.height + margin;
  return { drawing: { width, height, title: caption, marks }, pictures, dpi, caption };
}

const drawing = (options: PrintOptions): DrawDots =>
  drawnAs(options)?.draw ?? ((grid) => light(grid, plateLamps, { fieldGrey }).grey);

/** The look or the light that was asked for; null for the plates' own lamps. */
const drawnAs = (options: PrintOptions): PrintedLook | null =>
  options.look ?? printedLight(options, options.language ?? 'en');

/** Size of the words under an object, points. */
const nameSize = 8;

/** What an object is, with its size. */
function nameOf({ face, kind, shelfmark }: PlateObject, { language = 'en' }: PrintOptions): string {
  const w = captionWords[language];
  const { widthMm, heightMm } = sealOrPiece(face);
  const measured = `${printed(widthMm.toFixed(1), w)} × ${printed(heightMm.toFixed(1), w)} mm`;
  const size = kind === 'impression' || kind === 'cast' ? w.piece(measured) : measured;
  const named = kind === 'fragments' ? [w.fragments.name] : [cardWords[language].classes[kind], size];
  return [shelfmark, ...named].filter(Boolean).join(', ');
}

/** The bar, what the object is, and how it is shown. */
function panelMarks(
  { face, kind, view }: PlateObject,
  name: string,
  { middle, y, widthMm }: { middle: number; y: number; widthMm: number },
  { printScale, language = 'en' }: PrintOptions,
): DrawnMark[] {
  const perMm = (printScale * pointsPerInch) / mmPerInch;
  const way = kind === 'fragments' ? '' : viewWords({ view, sense: face.sense }, language);
  return [
    ...scaleBar(middle, y + 10, perMm, barLength(widthMm)),
    words(middle, y + 36, name, nameSize, 'ink', { align: 'middle' }),
    ...(way === '' ? [] : [words(middle, y + 46, way, 7, 'soft', { align: 'middle', face: 'italic' })]),
  ];
}

function surroundingMarks(
  { outline, labels }: PlateSurroundings,
  point: (x: number, y: number) => [number, number],
): DrawnMark[] {
  const points = Array.from({ length: outline.length / 2 }, (_, k) => point(outline[2 * k], outline[2 * k + 1])).flat();
  return [
    line(points, 'soft', 0.6, { closed: true, dash: [3, 2] }),
    ...labels.map(({ x, y, text }) => {
      const [left, top] = point(x, y);
      return words(left, top + 3, text, 9, 'ink', { align: 'middle' });
    }),
  ];
}

/** "Natural size", or how many times it. */
export function timesNatural(printScale: number, language: CardLanguage = 'en'): string {
  const w = captionWords[language];
  const times = Number(printScale.toPrecision(3));
  return w.times(times === 1 ? null : printed(times, w));
}

/** All that is said under a plate. */
export function printCaption(options: PrintOptions): string {
  const { printScale, dpi, credit, simulated, said, language = 'en' } = options;
  const w = captionWords[language];
  return [
    ...(simulated ? [w.simulated.several] : []),
    ...(said ? [said] : []),
    w.atDpi(timesNatural(printScale, language), dpi),
    drawnAs(options)?.says ?? w.light.plate(plateLamps.map((lamp) => lampWords(lamp, language))),
    w.formRemoved,
    ...(credit ? [credit.endsWith('.') ? credit : `${credit}.`] : []),
  ].join(' ');
}
