import { describe, expect, it } from 'vitest';
import { type FaceZones, findZones, labelAt, zoneNames } from '../../src/core/design/index.ts';
import type { Face, Sense } from '../../src/core/face/index.ts';
import { emptyGrid, identity, seededRandom, withHeights, xOf, yOf } from '../../src/core/geometry/index.ts';

const radius = 15;

/** A round face 30 mm across: what is drawn stands 0.3 mm proud of (relief) or below (intaglio) a level field. */
function roundFace(sense: Sense, drawn: (r: number, angle: number, x: number, y: number) => boolean): Face {
  const empty = emptyGrid(-radius, radius, -radius, radius, 0.1);
  const random = seededRandom(1);
  const up = sense === 'relief' ? 0.3 : -0.3;
  const mask = empty.mask.map((_, i) => {
    const [x, y] = [xOf(empty, i % empty.width), yOf(empty, Math.floor(i / empty.width))];
    return Math.hypot(x, y) < radius ? 1 : 0;
  });
  const z = empty.z.map((_, i) => {
    const [x, y] = [xOf(empty, i % empty.width), yOf(empty, Math.floor(i / empty.width))];
    const high = drawn(Math.hypot(x, y), Math.atan2(y, x), x, y);
    return mask[i] ? (high ? up : 0) + 0.01 * random.normal() : 0;
  });
  const relief = withHeights(empty, z, mask);
  const polygon = Float64Array.from({ length: 360 }, (_, k) => {
    const a = (2 * Math.PI * Math.floor(k / 2)) / 180;
    return radius * (k % 2 === 0 ? Math.cos(a) : Math.sin(a));
  });
  return {
    sense,
    senseConfidence: 1,
    senseFrom: 'stated',
    faceFromScan: identity,
    upFrom: 'scan',
    outline: { shape: 'round', widthMm: 2 * radius, heightMm: 2 * radius, polygon, confidence: 1 },
    relief,
    detail: relief,
    image: relief,
    noiseMm: 0.01,
    noiseLengthMm: 0.1,
    filled: 1,
    holes: 0,
    candidates: [],
    candidate: 0,
  };
}

/** Letters 2.6 mm high at r = 11 ± 1.3, strokes over 40 % of their band. */
const letters = (r: number, a: number): boolean => Math.abs(r - 11) < 1.3 && Math.sin(40 * a + 3 * r) > 0.3;
const animal = (x: number, y: number): boolean =>
  Math.hypot(x / 4, (y - 1) / 2.5) < 1 || (Math.abs(x) < 0.3 && y < 0 && y > -5);
const name = (face: Face, x: number, y: number): string | undefined => zoneNames[labelAt(findZones(face), x, y) - 1];

/** Greatest and least distance from the centre at which a part lies, mm; one cell in a hundred may stray. */
function radiiOf({ grid, labels }: FaceZones, part: (typeof zoneNames)[number]): [number, number] {
  const radii: number[] = [];
  labels.forEach((label, i) => {
    if (zoneNames[label - 1] === part)
      radii.push(Math.hypot(xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width))));
  });
  radii.sort((p, q) => q - p);
  return [radii[Math.floor(radii.length / 100)], radii[Math.floor((99 * radii.length) / 100)]];
}

describe('findZones', () => {
  const lined = (r: number, a: number, x: number, y: number): boolean =>
    Math.abs(r - 13.5) < 0.25 || Math.abs(r - 8.5) < 0.25 || letters(r, a) || animal(x, y);

  it.each(['relief', 'intaglio'] as const)('finds the band between two border lines on a %s', (sense) => {
    const zones = findZones(roundFace(sense, lined));
    expect(zones.bandFrom).toBe('relief');
    // The gaps beside the letters: between 12.3 and 13.25 mm, 8.75 and 9.7 mm from the centre; behind the line, 8.25 mm.
    const [outer, inner] = radiiOf(zones, 'legend');
    expect(outer).toBeGreaterThan(12.25);
    expect(outer).toBeLessThan(13.3);
    expect(inner).toBeGreaterThan(8.7);
    expect(inner).toBeLessThan(9.75);
    expect(radiiOf(zones, 'field')[0]).toBeCloseTo(8.25, 0);
  });

  it('names border, legend, motif and field where they are, and nothing outside', () => {
    const face = roundFace('intaglio', lined);
    expect(name(face, 13.5, 0)).toBe('border');
    expect(name(face, 14.6, 0)).toBe('border');
    expect(name(face, 0, 8.5)).toBe('border');
    expect(name(face, 0, 11)).toBe('legend');
    expect(name(face, -9.9, 0)).toBe('legend');
    expect(name(face, 1, 1)).toBe('motif');
    expect(name(face, 0, -3)).toBe('motif');
    expect(name(face, 5.5, -4)).toBe('field');
    expect(name(face, 14, 14)).toBeUndefined();
  });

  it('takes corded and beaded lines for lines', () => {
    const beaded = (r: number, a: number, x: number, y: number): boolean =>
      (Math.abs(r - 13.5) < 0.3 && Math.sin(120 * a) > -0.5) ||
      (Math.abs(r - 8.5) < 0.3 && Math.sin(80 * a) > -0.5) ||
      letters(r, a) ||
      animal(x, y);
    const zones = findZones(roundFace('relief', beaded));
    expect(zones.bandFrom).toBe('relief');
    expect(Math.abs(radiiOf(zones, 'legend')[1] - 9.2)).toBeLessThan(0.55);
  });

  it('without an inner line takes the gap inside the letters', () => {
    const open = (r: number, a: number, x: number, y: number): boolean =>
      Math.abs(r - 13.5) < 0.25 || letters(r, a) || animal(x, y);
    const zones = findZones(roundFace('relief', open));
    expect(zones.bandFrom).toBe('relief');
    const inner = radiiOf(zones, 'legend')[1];
    expect(inner).toBeGreaterThan(4);
    expect(inner).toBeLessThan(9.8);
  });

  it('on a blank face says that the band is assumed', () => {
    expect(findZones(roundFace('relief', () => false)).bandFrom).toBe('assumed');
  });
});
