import { type Face, findOutline, insidePolygon } from '../face/index.ts';
import { chosenModel, type Fit, faceMotion } from '../fit/index.ts';
import { apply, type HeightGrid, invert, rotationAbout, type Similarity, xOf, yOf } from '../geometry/index.ts';
import { isWhole } from '../judge/index.ts';

export const imageLeftDefaults = {
  /** Cells that are looked at, across the bounding face's long side. */
  across: 160,
  /** A face that is whole but has less than this share of the other's area is an island of it, and bounds nothing. */
  leastShare: 0.5,
};

type Side = Pick<Face, 'image' | 'sense' | 'faceFromScan'>;

/**
 * Share of one image that either of two fitted faces carries: the cells within that image's outline on which each has its own image, over all on
 * which one of them has. The image is that of the face that ends where the matrix ended, so that no lip of wax counts: a whole negative's; of two
 * alike the smaller whole one's, which is the barer of lips. Where none is whole, it is what the two have together, and their shares
 * are those of the areas, A / (A + B − A ∩ B): at most what is left. Null without a fit.
 */
export function imageLeft(
  reference: Side,
  subject: Side,
  fit: Fit,
  options = imageLeftDefaults,
): readonly [reference: number, subject: number] | null {
  const model = fit.found ? chosenModel(fit) : undefined;
  if (!model) return null;
  const referenceFromSubject = faceMotion(reference, subject, model);
  const subjectFromReference = invert(referenceFromSubject);
  const known = new Map<Side, Extent>();
  const extent = (side: Side): Extent => {
    const found = known.get(side) ?? extentOf(side);
    known.set(side, found);
    return found;
  };
  const bound = bounding(reference, subject, referenceFromSubject.scale, extent, options);
  if (!bound) return sharesOfBoth(reference.image, subject.image, subjectFromReference, options);
  if (bound === reference) return sharesWithin(extent(reference), subject.image, subjectFromReference, options);
  const [own, other] = sharesWithin(extent(subject), reference.image, referenceFromSubject, options);
  return [other, own];
}

interface Extent {
  readonly image: HeightGrid;
  /** 1 for the cells within the image's outline. */
  readonly inside: Uint8Array;
  readonly whole: boolean;
  readonly areaMm2: number;
}

function extentOf({ image }: Side): Extent {
  const outline = findOutline(image, image.mask);
  const inside = insidePolygon(image, laidBack(outline));
  const areaMm2 = inside.reduce((sum, cell) => sum + cell, 0) * image.pitch ** 2;
  return { image, inside, whole: isWhole(outline), areaMm2 };
}

/** The outline in the frame it was found in. */
function laidBack({ polygon, centre, turnDeg }: ReturnType<typeof findOutline>): Float64Array {
  const upright: Similarity = {
    scale: 1,
    rotation: rotationAbout([0, 0, 1], (turnDeg * Math.PI) / 180),
    translation: [centre[0], centre[1], 0],
  };
  return polygon.map((_, i) => apply(upright, [polygon[i & ~1], polygon[i | 1], 0])[i & 1]);
}

/** The face whose outline is the image's, or null where none is whole; the outline of a whole negative's partner is not asked for. */
function bounding(
  a: Side,
  b: Side,
  scale: number,
  extent: (side: Side) => Extent,
  { leastShare }: typeof imageLeftDefaults,
): Side | null {
  const negatives = [a, b].filter(({ sense }) => sense === 'intaglio');
  if (negatives.length === 1 && extent(negatives[0]).whole) return negatives[0];
  const [areaA, areaB] = [extent(a).areaMm2, extent(b).areaMm2 * scale ** 2];
  const [smaller, larger] = areaA < areaB ? [a, b] : [b, a];
  const enough = Math.min(areaA, areaB) >= leastShare * Math.max(areaA, areaB);
  if (extent(smaller).whole && enough) return smaller;
  return extent(larger).whole ? larger : null;
}

/** Shares of the two in what they have together; `bFromA` takes a's face frame to b's. */
function sharesOfBoth(
  a: HeightGrid,
  b: HeightGrid,
  bFromA: Similarity,
  { across }: typeof imageLeftDefaults,
): readonly [a: number, b: number] {
  const step = Math.max(1, Math.round(Math.max(a.width, a.height) / across));
  let [own, both] = [0, 0];
  for (let row = 0; row < a.height; row += step)
    for (let col = 0; col < a.width; col += step) {
      if (!a.mask[row * a.width + col]) continue;
      own++;
      const [x, y] = apply(bFromA, [xOf(a, col), yOf(a, row), 0]);
      both += cellAt(b, x, y);
    }
  const cellMm2 = (step * a.pitch) ** 2;
  const areaB = b.mask.reduce((sum, cell) => sum + cell, 0) * (b.pitch / bFromA.scale) ** 2;
  const together = (own - both) * cellMm2 + areaB;
  return together > 0 ? [(own * cellMm2) / together, areaB / together] : [0, 0];
}

/** Shares of the bounding face itself and of the other; `otherFromThis` takes one face frame to the other's. */
function sharesWithin(
  { image, inside }: Extent,
  other: HeightGrid,
  otherFromThis: Similarity,
  { across }: typeof imageLeftDefaults,
): readonly [own: number, other: number] {
  const step = Math.max(1, Math.round(Math.max(image.width, image.height) / across));
  let [all, own, both] = [0, 0, 0];
  for (let row = 0; row < image.height; row += step)
    for (let col = 0; col < image.width; col += step) {
      const i = row * image.width + col;
      if (!inside[i]) continue;
      const [x, y] = apply(otherFromThis, [xOf(image, col), yOf(image, row), 0]);
      const there = cellAt(other, x, y);
      // What neither carries is no loss of either: the hole in a ring, the mouth of a C.
      all += image.mask[i] | there;
      own += image.mask[i];
      both += there;
    }
  return all > 0 ? [own / all, both / all] : [0, 0];
}

function cellAt({ width, height, left, top, pitch, mask }: HeightGrid, x: number, y: number): number {
  const col = Math.round((x - left) / pitch);
  const row = Math.round((top - y) / pitch);
  return col >= 0 && row >= 0 && col < width && row < height ? mask[row * width + col] : 0;
}
