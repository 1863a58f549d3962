import { type Face, findOutline, insidePolygon } from '../face/index.ts';
import { chosenModel, type Fit, faceMotion } from '../fit/index.ts';
import { apply, type HeightGrid, invert, rotationAbout, type Similarity, xOf, yOf } from '../geometry/index.ts';
import { isWhole } from './whole.ts';

export const imageLeftDefaults = {
  /** Cells that are looked at, across the bounding face's long side. */
  across: 160,
  /** A face that is whole but has less than this share of the other's area is an island of it, and bounds nothing. */
  leastShare: 0.5,
};

type Side = Pick<Face, 'image' | 'sense' | 'faceFromScan'>;

/**
 * Share of one image that either of two fitted faces carries: the cells of that image on which each has its own image, over all of
 * them. The image is that of the face that ends where the matrix ended, so that no lip of wax counts: a whole negative's; of two
 * alike the smaller whole one's, which is the barer of lips; where none is whole, the larger. Null without a fit.
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
  const [a, b] = [extentOf(reference), extentOf(subject)];
  const scaled = { ...b, areaMm2: b.areaMm2 * referenceFromSubject.scale ** 2 };
  return bounding(a, scaled, options) === 'reference'
    ? sharesWithin(a, subject.image, invert(referenceFromSubject), options)
    : (([own, other]) => [other, own] as const)(sharesWithin(b, reference.image, referenceFromSubject, options));
}

interface Extent {
  readonly image: HeightGrid;
  readonly sense: Face['sense'];
  /** 1 for the cells within the image's outline. */
  readonly inside: Uint8Array;
  readonly whole: boolean;
  readonly areaMm2: number;
}

function extentOf({ image, sense }: Side): Extent {
  const outline = findOutline(image, image.mask);
  const inside = insidePolygon(image, laidBack(outline));
  const areaMm2 = inside.reduce((sum, cell) => sum + cell, 0) * image.pitch ** 2;
  return { image, sense, inside, whole: isWhole(outline), areaMm2 };
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

function bounding(a: Extent, b: Extent, { leastShare }: typeof imageLeftDefaults): 'reference' | 'subject' {
  const negatives = [a, b].filter(({ sense }) => sense === 'intaglio');
  if (negatives.length === 1 && negatives[0].whole) return negatives[0] === a ? 'reference' : 'subject';
  const larger = a.areaMm2 >= b.areaMm2 ? a : b;
  const smaller = larger === a ? b : a;
  const bare = smaller.whole && smaller.areaMm2 >= leastShare * larger.areaMm2 ? smaller : larger;
  return bare === a ? 'reference' : 'subject';
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
      all++;
      own += image.mask[i];
      const [x, y] = apply(otherFromThis, [xOf(image, col), yOf(image, row), 0]);
      both += cellAt(other, x, y);
    }
  return all > 0 ? [own / all, both / all] : [0, 0];
}

function cellAt({ width, height, left, top, pitch, mask }: HeightGrid, x: number, y: number): number {
  const col = Math.round((x - left) / pitch);
  const row = Math.round((top - y) / pitch);
  return col >= 0 && row >= 0 && col < width && row < height ? mask[row * width + col] : 0;
}
