import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Band, findLegendBand } from '../../src/core/design/index.ts';
import { prepareScan } from '../../src/core/pipeline.ts';
import { faceFromStrip, facingArcs, readableStrip, unroll } from '../../src/core/read/index.ts';
import { piecesOf } from '../../src/core/read/strip/pieces.ts';
import { wholeFrom } from '../../src/core/read/strip/wholeFrom.ts';
import { engravedFace } from './engravedFace.ts';
import { shareUpright, twoWaysFace } from './twoWays.ts';

const coins = join(process.env.ECTYPE_DATA ?? '../shared/data', 'coins');

describe('a legend that faces two ways', () => {
  // Truth by construction: whole words turned half round in their place.
  it('is laid out arc by arc, so that its letters stand upright', () => {
    const made = twoWaysFace(5502, 0.45, { shape: 'shield', pitchMm: 0.12, wear: 0.4 });
    const grid = { pitchMm: 0.12 };
    const arcs = facingArcs(unroll(made.face.relief, made.band, { ...grid, facing: 'inward' }));
    const strip = unroll(made.face.relief, made.band, { ...grid, arcs });
    expect(arcs.map(({ facing }) => facing).sort()).toEqual(['inward', 'outward']);
    expect(shareUpright(strip, made.standing)).toBeGreaterThan(0.9);
  });

  it('is not seen where all letters face one way', () => {
    const made = twoWaysFace(4502, 0, { shape: 'round', pitchMm: 0.12 });
    expect(facingArcs(unroll(made.face.relief, made.band, { pitchMm: 0.12 }))).toHaveLength(1);
  });

  // Truth: what everyone can see. ONE DIME stands between the pellets at 113° and 244°, feet to the rim.
  it.skipIf(!existsSync(coins))('on a real coin changes at its two pellets', async () => {
    const bytes = new Uint8Array(readFileSync(join(coins, 'dime.tif')));
    const scan = {
      name: 'dime.tif',
      bytes,
      unit: 'mm',
      pixelSize: 0.0631887,
      heightStep: 1,
      sha256: () => '',
    } as const;
    const { face } = await prepareScan(scan);
    const { arcs, strip } = readableStrip(face.relief, findLegendBand(face) as Band);
    const outward = arcs.filter(({ facing }) => facing === 'outward');
    expect(outward).toHaveLength(1);
    expect(outward[0].fromDeg).toBeCloseTo(110, -1);
    expect(outward[0].toDeg).toBeCloseTo(245, -1);
    expect(strip.pieces.map(({ facing }) => facing)).toEqual(['inward', 'outward']);
  });
});

describe('pieces of a ring', () => {
  const arcs = [
    { facing: 'inward', first: 80 },
    { facing: 'outward', first: 30 },
  ] as const;

  it('hold every place once, whatever the start', () => {
    for (let start = 0; start < 100; start += 7) {
      const seen = new Set<number>();
      for (const { facing, first, count } of piecesOf(arcs, start, 100))
        for (let k = 0; k < count; k++) seen.add((((first + (facing === 'inward' ? k : -k)) % 100) + 100) % 100);
      expect(seen.size).toBe(100);
      const total = piecesOf(arcs, start, 100).reduce((sum, { count }) => sum + count, 0);
      expect(total).toBe(100);
    }
  });

  it('begin at the start and read on in its own way', () => {
    expect(piecesOf(arcs, 90, 100)[0]).toEqual({ facing: 'inward', first: 90, count: 40 });
    expect(piecesOf(arcs, 50, 100)[0]).toEqual({ facing: 'outward', first: 50, count: 21 });
  });
});

describe('a broken legend', () => {
  const { face } = engravedFace(29, { shape: 'round', sizeMm: 40, pitchMm: 0.12 });
  const band = findLegendBand(face) as Band;
  const round = unroll(face.relief, band, { facing: 'inward' });

  it('begins after its longest gap, in the direction of reading', () => {
    const mask = round.grid.mask.slice();
    const { width, height } = round.grid;
    const gap = [Math.round(0.3 * width), Math.round(0.5 * width)];
    for (let r = 0; r < height; r++) mask.fill(0, r * width + gap[0], r * width + gap[1]);
    const broken = { ...round, grid: { ...round.grid, mask } };
    const degAt = (column: number): number => {
      const [x, y] = faceFromStrip(round, column, height / 2);
      return ((Math.atan2(x - band.cx, y - band.cy) * 180) / Math.PI + 360) % 360;
    };
    expect(wholeFrom(broken, 'inward')).toBeCloseTo(degAt(gap[1]), 0);
    expect(wholeFrom(broken, 'outward')).toBeCloseTo(degAt(gap[0]), 0);
  });

  it('that is whole begins where it is told', () => {
    expect(wholeFrom(round, 'inward')).toBeNull();
  });
});
