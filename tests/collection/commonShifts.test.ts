import { describe, expect, it } from 'vitest';
import { type Decision, groupObjects, type Link } from '../../src/core/collection/index.ts';
import { type Random, seededRandom } from '../../src/core/geometry/index.ts';

interface Made {
  readonly id: string;
  readonly turn: number;
  /** Shift of each place, mm: of the matrix and of the object's own flow. */
  readonly shifts: readonly (readonly [number, number])[];
}

const places = 48;
const normal = (random: Random): number =>
  Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next());
const field = (random: Random, mm: number): [number, number][] =>
  Array.from({ length: places }, () => [mm * normal(random), mm * normal(random)]);

/** On a spiral over a face of 40 mm, so that no two lie together. */
const placeAt = (k: number): [number, number] => {
  const [radius, angle] = [18 * Math.sqrt((k + 0.5) / places), 2.4 * k];
  return [radius * Math.cos(angle), radius * Math.sin(angle)];
};
const turned = ([x, y]: readonly [number, number], angle: number): [number, number] => [
  x * Math.cos(angle) - y * Math.sin(angle),
  x * Math.sin(angle) + y * Math.cos(angle),
];

/** Objects of two matrices of which the second is displaced by `copyMm` in each direction, at the places that `moves` says. */
function collection(seed: number, counts: readonly [number, number], copyMm: number, moves = (_: number) => true) {
  const random = seededRandom(seed);
  const copy = field(random, copyMm).map((d, k): [number, number] => (moves(k) ? d : [0, 0]));
  const objects = counts.flatMap((count, matrix) =>
    Array.from({ length: count }, (_, k): Made => {
      const own = field(random, 0.012);
      const shifts = own.map(([x, y], i): [number, number] => [x + matrix * copy[i][0], y + matrix * copy[i][1]]);
      return { id: `${'AB'[matrix]}${k}`, turn: random.between(0, 6), shifts };
    }),
  );
  const links = objects.flatMap((a, i) => objects.slice(i + 1).map((b) => linkOf(a, b, random)));
  return { objects: objects.map(({ id }) => ({ id })), links };
}

/** A supported pair in the plane of a's face, as it is kept: micrometres after the motion, millionths. */
function linkOf(a: Made, b: Made, random: Random): Link {
  const at = a.shifts.flatMap(([x, y], k) => {
    const noise = (): number => 0.006 * normal(random);
    const shift: [number, number] = [b.shifts[k][0] - x + noise(), b.shifts[k][1] - y + noise()];
    return [...turned(placeAt(k), -a.turn), ...turned(shift, -a.turn)];
  });
  const [c, s] = [Math.cos(b.turn - a.turn), Math.sin(b.turn - a.turn)];
  const text = JSON.stringify([40_000, ...[c, -s, s, c].map((v) => Math.round(1e6 * v)), 0, 0, ...at.map(um)]);
  const score = a.id[0] === b.id[0] ? 20 : 9;
  return { ...bare, a: a.id, b: b.id, score, places: text };
}
const um = (mm: number): number => Math.round(1000 * mm);
const bare = {
  finding: 'supported',
  question: 'oneMatrix',
  strength: 'strong',
  descent: 'cannotJudge',
  imageLeft: null,
} as const;

const grouped = (made: ReturnType<typeof collection>, decisions: readonly Decision[] = [], links = made.links) =>
  groupObjects(made.objects, links, [], decisions, links.length);
const membersOf = (...args: Parameters<typeof grouped>): string[] =>
  grouped(...args).groups.map(({ members }) => members.join(' '));

describe('places that are off in the same way in all pairs across', () => {
  it('part a careful copy that every single pair takes for one matrix', () => {
    for (const seed of [1, 2, 3]) {
      const made = collection(seed, [4, 3], 0.03);
      expect(membersOf(made)).toEqual(['A0 A1 A2 A3', 'B0 B1 B2']);
      expect(grouped(made).parted).toEqual([
        expect.objectContaining({
          sides: [
            ['A0', 'A1', 'A2', 'A3'],
            ['B0', 'B1', 'B2'],
          ],
          independent: true,
        }),
      ]);
      expect(Math.abs(grouped(made).parted[0].commonMm - 0.03)).toBeLessThan(0.012);
    }
  });

  it('part a single object of a copy too, where it is off by more', () => {
    const made = collection(4, [4, 1], 0.045);
    expect(membersOf(made)).toEqual(['A0 A1 A2 A3']);
    expect(grouped(made).parted[0].independent).toBe(false);
  });

  it('part nothing of one matrix', () => {
    for (const seed of [5, 6, 7, 8, 9]) expect(membersOf(collection(seed, [4, 3], 0))).toHaveLength(1);
  });

  it('part nothing where only the outer half is displaced, as by a legend cut anew', () => {
    const made = collection(10, [4, 3], 0.08, (k) => k >= places / 2);
    expect(membersOf(made)).toHaveLength(1);
  });

  it('say the same whichever object of a pair comes first', () => {
    const made = collection(11, [3, 3], 0.03);
    const there = grouped(made).parted;
    const reversed = { ...made, objects: [...made.objects].reverse(), links: [...made.links].reverse() };
    expect(grouped(reversed).parted).toEqual(there);
  });

  it('do not part what a person joined', () => {
    const made = collection(12, [3, 3], 0.03);
    const join: Decision = { kind: 'join', members: ['A0', 'B0'], by: 'A. Keeper', at: '2026-01-01', words: '' };
    expect(membersOf(made, [join])).toEqual(['A0 A1 A2 B0 B1 B2']);
  });

  it('are looked for only where the pairs carry them', () => {
    const made = collection(13, [3, 3], 0.03);
    const without = made.links.map(({ places: _, ...link }) => link);
    expect(membersOf(made, [], without)).toHaveLength(1);
  });
});
