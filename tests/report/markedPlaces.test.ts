import { describe, expect, it } from 'vitest';
import { identity } from '../../src/core/geometry/index.ts';
import { type TextMark, words } from '../../src/core/report/drawing/index.ts';
import { markedPlaces } from '../../src/core/report/figures/markedPlaces.ts';
import type { Plates } from '../../src/core/report/figures/plates.ts';

const plates = { plateFromReference: identity, turnDeg: 0 } as Pick<Plates, 'plateFromReference' | 'turnDeg'> as Plates;
/** Page units are tenths of a millimetre, y downwards. */
const to = { x: (x: number) => 10 * x, y: (y: number) => -10 * y };

const square = (id: string, x: number, y: number, half = 1.5) => ({
  id,
  outline: Float64Array.of(x - half, y - half, x + half, y - half, x + half, y + half, x - half, y + half),
  at: { deg: 0, radiusMm: 0, hour: 12 },
});

const namesOf = (...args: Parameters<typeof markedPlaces>): TextMark[] =>
  markedPlaces(...args).filter((mark) => mark.kind === 'text');

describe('names of marks on a map', () => {
  it('stand right of the outline where nothing else does', () => {
    const [name] = namesOf([square('M1', 0, 0)], plates, to, []);
    expect([name.x, name.y, name.align]).toEqual([19, 11, 'start']);
  });

  it('leave a letter that stands there readable', () => {
    const letter = words(24, 12, 'B', 12, 'ink', { align: 'middle' });
    const [name] = namesOf([square('M1', 0, 0)], plates, to, [letter]);
    expect([name.x, name.align]).toEqual([11, 'end']);
  });

  it('leave one another readable, of marks that lie upon one another', () => {
    const names = namesOf(
      ['M1', 'M2', 'M3', 'M4'].map((id) => square(id, 0, 0)),
      plates,
      to,
      [],
    );
    expect(new Set(names.map(({ x, y, align }) => `${x} ${y} ${align}`)).size).toBe(4);
  });

  it('stand on the page even where no place is free', () => {
    const crowd = Array.from({ length: 30 }, (_, k) => words(-60 + 4 * k, 0, 'wwww', 80));
    expect(namesOf([square('M1', 0, 0)], plates, to, crowd)).toHaveLength(1);
  });
});
