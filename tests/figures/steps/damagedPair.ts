import { type Random, seededRandom } from '../../../src/core/geometry/index.ts';
import { designHeight, pair, type Surface } from '../../condition/pressedSeal.ts';

/** A stretch of a line, a crest or a furrow of its own depth and width. */
const lineOn = (random: Random, base: Surface, sign: number): Surface => {
  const [x0, y0, turn] = [random.between(-8, 8), random.between(-8, 8), random.between(0, Math.PI)];
  const [half, width, depth] = [random.between(1, 14), random.between(0.4, 1), random.between(0.1, 0.5)];
  return (x, y) => {
    const aside = (y - y0) * Math.cos(turn) - (x - x0) * Math.sin(turn);
    const along = (x - x0) * Math.cos(turn) + (y - y0) * Math.sin(turn);
    const h = base(x, y);
    if (Math.abs(along) > half || Math.abs(aside) > width / 2) return h;
    const crest = depth * (1 - (2 * Math.abs(aside)) / width);
    return sign > 0 ? Math.max(h, crest) : h - crest;
  };
};

/** A round place where `act` is done to the surface, harder toward its middle. */
const placeOn = (
  random: Random,
  base: Surface,
  leastMm: number,
  mostMm: number,
  act: (h: number, share: number) => number,
) => {
  const [r, turn, size] = [random.between(0, 16), random.between(0, 2 * Math.PI), random.between(leastMm, mostMm)];
  const [x0, y0] = [r * Math.cos(turn), r * Math.sin(turn)];
  return (x: number, y: number): number => {
    const share = 1 - Math.hypot(x - x0, y - y0) / size;
    return share > 0 ? act(base(x, y), share) : base(x, y);
  };
};

/** A pair with a bit of everything that happens to seals, by chance. */
export function damagedPair(seed: number) {
  const random = seededRandom(seed);
  let reference: Surface = designHeight;
  let subject: Surface = designHeight;
  const both = placeOn(random, designHeight, 1, 3, (h, share) => h - 0.9 * Math.min(1, 3 * share));
  if (seed % 2) [reference, subject] = [both, both];
  for (let k = 0; k < 2; k++) {
    reference = lineOn(random, reference, random.next() < 0.7 ? 1 : -1);
    subject = lineOn(random, subject, random.next() < 0.5 ? 1 : -1);
    subject = placeOn(random, subject, 2, 7, (h, share) => Math.min(h, 0.35 - 0.25 * share)); // rubbed
    subject = placeOn(random, subject, 2, 6, (h, share) => h * (1 - 0.8 * Math.min(1, 2 * share))); // not filled
    subject = placeOn(random, subject, 0.5, 2, (h, share) => h - random.between(0.3, 0.301) * Math.min(1, 4 * share)); // chip
    subject = placeOn(random, subject, 0.5, 1.2, (h, share) => h + 0.4 * Math.sqrt(share)); // bubble
  }
  if (seed % 3 === 0) {
    // A cut of the matrix that both show, right across.
    const across = { turn: random.between(0, Math.PI), depth: random.between(0.2, 0.5) };
    const cut =
      (base: Surface): Surface =>
      (x, y) =>
        Math.max(base(x, y), across.depth - 1.1 * Math.abs(y * Math.cos(across.turn) - x * Math.sin(across.turn) - 2));
    [reference, subject] = [cut(reference), cut(subject)];
  }
  if (seed % 4 === 1) {
    const once = subject;
    subject = (x, y) => Math.max(once(x, y), 0.6 * designHeight(x - 0.9, y + 0.7));
  }
  const edge = random.between(0, 2 * Math.PI);
  const broken: Surface = (x, y) =>
    x * Math.cos(edge) + y * Math.sin(edge) > 14 - seed ? Number.NaN : subject(x, y) + 0.0004 * x * y - 0.05;
  return pair(broken, reference, 0.004 + 0.004 * random.next());
}
