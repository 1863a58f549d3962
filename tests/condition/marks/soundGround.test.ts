import { describe, expect, it } from 'vitest';
import type { Chain } from '../../../src/core/condition/marks/lines/chains.ts';
import { soundAlong, soundDefaults, soundOnStretch } from '../../../src/core/condition/marks/soundGround.ts';
import type { WearRelief } from '../../../src/core/condition/relief/relief.ts';
import type { WearState } from '../../../src/core/condition/types.ts';
import { type WearMap, wearLabel } from '../../../src/core/condition/wear/labels.ts';

const [width, pitch] = [101, 0.2];
/** Cells whose middle satisfies `unsound` carry `state`, the others are sharp; x, y in mm from the middle. */
function mapOf(unsound: (x: number, y: number) => boolean, state: WearState = 'lower'): WearMap {
  const labels = new Uint8Array(width * width).map((_, i) =>
    wearLabel(unsound(((i % width) - 50) * pitch, (Math.floor(i / width) - 50) * pitch) ? state : 'sharp'),
  );
  return { width, height: width, pitch, left: -10, top: 10, turned: false, labels };
}
const relief = { reference: { width, height: width, pitch }, sizeMm: 20 } as unknown as WearRelief;
const middle = [50 * width + 50];
const sound = (unsound: (x: number, y: number) => boolean, state?: WearState): boolean =>
  soundAlong(relief, mapOf(unsound, state), middle);
const within = (from: number, to: number) => (x: number, y: number) =>
  Math.hypot(x, y) >= from && Math.hypot(x, y) <= to;

describe('ground around a mark', () => {
  it('is looked at on two rings, 1.2 and 2 mm away, and not under it nor farther off', () => {
    expect(sound(within(0, 1))).toBe(true);
    expect(sound(within(2.3, 9))).toBe(true);
    // One of the two rings is half of what is looked at, more than four tenths.
    expect(sound(within(1.05, 1.4))).toBe(false);
    expect(sound(within(1.8, 2.2))).toBe(false);
  });

  it('is sound up to four tenths, all round alike', () => {
    // Sectors of 45°: each direction is an eighth. Three are 37.5 %, four 50 %.
    const sectors = (count: number, from: number) => (x: number, y: number) => {
      const eighth = (Math.round((Math.atan2(y, x) * 4) / Math.PI) + 16 - from) % 8;
      return eighth < count;
    };
    for (let from = 0; from < 8; from++) {
      expect(sound(sectors(3, from)), `three from ${from}`).toBe(true);
      expect(sound(sectors(4, from)), `four from ${from}`).toBe(false);
    }
  });

  it('is spoilt by what is worn, flat, not filled, lost or not judged, and not by what is added, clogged or blurred', () => {
    const everywhere = (): boolean => true;
    for (const state of ['lower', 'lost', 'cannotJudge'] as const) expect(sound(everywhere, state), state).toBe(false);
    for (const state of ['sharp', 'added', 'clogged', 'blurred'] as const)
      expect(sound(everywhere, state), state).toBe(true);
  });

  it('says nothing where nothing is seen', () => {
    const empty = { ...mapOf(() => false), labels: new Uint8Array(width * width) };
    expect(soundAlong(relief, empty, middle)).toBe(false);
  });
});

describe('a stretch of a line', () => {
  const line = Array.from({ length: 60 }, (_, k) => 50 * width + 20 + k);
  const chain = { cells: line, lengthMm: 12 } as unknown as Chain;

  it('of 0.15 of the size is enough, wherever along the line', () => {
    // 3 mm and the rings of 2 mm at either end: sound over 7 mm, at the beginning, the middle or the end.
    for (const at of [-6, 0, 6])
      expect(
        soundOnStretch(
          relief,
          mapOf((x) => Math.abs(x - at) > 3.6),
          chain,
        ),
        String(at),
      ).toBe(true);
    expect(
      soundOnStretch(
        relief,
        mapOf((x) => Math.abs(x) > 0.4),
        chain,
      ),
    ).toBe(false);
    expect(
      soundOnStretch(
        relief,
        mapOf(() => true),
        chain,
      ),
    ).toBe(false);
  });

  it('is the whole of a line that is shorter', () => {
    const short = { cells: line.slice(0, 10), lengthMm: 2 } as unknown as Chain;
    expect(
      soundOnStretch(
        relief,
        mapOf(() => false),
        short,
      ),
    ).toBe(true);
    expect(
      soundOnStretch(
        relief,
        mapOf(() => true),
        short,
      ),
    ).toBe(false);
    expect(soundDefaults.stretch * 20).toBeGreaterThan(2);
  });
});
