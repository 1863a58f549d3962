import { beforeEach, describe, expect, it } from 'vitest';
import { depthOf, pointToward } from '../../src/app/read/face/frame.ts';
import { actOnLegend, legendNow, transcribe } from '../../src/app/read/state/acts.ts';
import { faceOfStrip, orderWith, type RingNow } from '../../src/app/read/state/current.ts';
import { asFound, moveEdge, moveStart, turnFacing } from '../../src/app/read/state/edges.ts';
import { documentNow, undo } from '../../src/app/state/store.ts';
import { type Band, bandInside, parallelAt } from '../../src/core/design/index.ts';
import { emptyGrid } from '../../src/core/geometry/index.ts';
import { unroll } from '../../src/core/read/index.ts';
import type { FoundBand, StripPlaces } from '../../src/workers/browser/readingProtocol.ts';
import { freshState } from './freshState.ts';

const outline = Float64Array.from({ length: 720 }, (_, i) => {
  const t = (2 * Math.PI * Math.floor(i / 2)) / 360;
  return i % 2 === 0 ? 18 * Math.sin(t) : 22 * Math.cos(t);
});
const grid = emptyGrid(-25, 25, -25, 25, 0.2);
grid.mask.fill(1);
const band: Band = bandInside({ sense: 'relief' }, outline, 2, 6);
const letters = { sense: 'upright', separation: 3, decided: true, likeness: [1, 0, 0, 0] } as const;
const found: FoundBand = {
  band,
  letters,
  facing: 'inward',
  arcs: [],
  facingDoubts: [],
  startDeg: 0,
  startsAt: 'top',
  crossDeg: null,
};

/** The ring as the document has it, and its strip. */
function laid(): { now: RingNow; places: StripPlaces } {
  const edits = legendNow('a').rings[0] ?? {};
  const order = orderWith(found, edits);
  const strip = unroll(grid, order.band, order);
  return { now: { ring: 0, found, edits, order }, places: strip as unknown as StripPlaces };
}

/** Where on the seal the letters stand, mm. */
function onSeal(): [number, number][] {
  const { places } = laid();
  return legendNow('a').transcription.items.map((item) =>
    faceOfStrip(places, ('alongMm' in item ? (item.alongMm ?? 0) : 0) / places.grid.pitch, places.grid.height / 2),
  );
}

const apart = (a: [number, number][], b: [number, number][]): number =>
  Math.max(...a.map(([x, y], i) => Math.hypot(x - b[i][0], y - b[i][1])));

beforeEach(() => {
  freshState();
  const items = [3, 20, 41, 77].map((alongMm) => ({
    kind: 'letter' as const,
    text: 'A',
    state: 'clear' as const,
    alongMm,
  }));
  transcribe('a', 'Typed', { language: 'la', items, sources: [] });
});

describe('letters that were typed', () => {
  it('stay where they stand on the seal when the strip begins elsewhere', () => {
    const before = onSeal();
    for (const deg of [90, 217.5, 351, 0]) {
      const { now, places } = laid();
      moveStart('a', now, places, deg);
      expect(laid().now.order.startDeg).toBe(deg);
      expect(apart(onSeal(), before), `from ${deg}°`).toBeLessThan(0.35);
    }
  });

  it('stay there when the strip runs the other way', () => {
    const before = onSeal();
    const { now, places } = laid();
    turnFacing('a', now, places, 'outward');
    expect(laid().places.facing).toBe('outward');
    expect(apart(onSeal(), before)).toBeLessThan(0.35);
  });

  it('keep their direction when an edge is moved', () => {
    const before = onSeal();
    moveEdge('a', laid().now, 'innerMm', 7.5);
    // The middle of the band lies 0.75 mm further in; nothing may have slid along by more than a little.
    expect(apart(onSeal(), before)).toBeLessThan(1.2);
    expect(laid().now.order.band.innerMm).toBe(7.5);
  });

  it('come back with the band as it was found, and by undo', () => {
    const before = onSeal();
    const start = documentNow();
    const first = laid();
    moveStart('a', first.now, first.places, 140);
    const second = laid();
    asFound('a', second.now, second.places);
    expect(laid().now.order).toEqual(first.now.order);
    expect(apart(onSeal(), before)).toBeLessThan(0.35);
    undo();
    undo();
    expect(documentNow()).toEqual(start);
  });
});

describe('the edges of a band', () => {
  it('never cross', () => {
    moveEdge('a', laid().now, 'outerMm', 9);
    const { outerMm, innerMm } = laid().now.order.band;
    expect(innerMm - outerMm).toBeGreaterThanOrEqual(0.4 - 1e-9);
  });

  it('lie at the depth at which they are drawn', () => {
    for (const depth of [0.5, 3, 6]) {
      const ring = parallelAt(band, depth);
      for (let i = 0; i < ring.length; i += 120) expect(depthOf(band, ring[i], ring[i + 1])).toBeCloseTo(depth, 1);
    }
    expect(depthOf(band, 0, 30)).toBeLessThan(0);
    const [x, y] = pointToward(
      [
        [0, 5],
        [5, 0],
        [0, -5],
        [-5, 0],
      ],
      0,
      0,
      92,
    );
    expect([x, y]).toEqual([5, 0]);
  });

  it('are of each ring on its own', () => {
    actOnLegend('a', 'Another ring', () => ({ ring: 1, rings: { 0: { outerMm: 3 } } }));
    expect(legendNow('a').rings).toEqual({ 0: { outerMm: 3 } });
    expect(orderWith(found, legendNow('a').rings[1] ?? {}).band).toBe(band);
  });
});
