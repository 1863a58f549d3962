import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  decideUnit,
  decideUnitsOfPair,
  mmPer,
  plausibleUnits,
  readScan,
  toMillimetres,
  type Unit,
  units,
} from '../../src/core/scan/index.ts';
import { ball, textPly } from './shapes.ts';

const bare = { unitTrusted: false } as const;
const gltf = { unitInFile: 'm', unitTrusted: false } as const;
const x3p = { unitInFile: 'm', unitTrusted: true } as const;

describe('units', () => {
  it('are plausible exactly where the face is 8 to 160 mm long', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-4, max: 1e4, noNaN: true }), (length) => {
        const found = plausibleUnits(length);
        return units.every(
          (unit) => found.includes(unit) === (length * mmPer[unit] >= 8 && length * mmPer[unit] <= 160),
        );
      }),
    );
  });

  it.each<[number, readonly Unit[]]>([
    [30, ['mm']],
    [12, ['mm', 'cm']],
    [3, ['cm', 'inch']],
    [7, ['cm']],
    [0.5, ['inch']],
    [0.05, ['m']],
    [0.2, []],
    [500, []],
  ])('a face %d long could be in %j', (length, expected) => expect(plausibleUnits(length)).toEqual(expected));

  it('what the user states goes before everything', () =>
    expect(decideUnit(x3p, 30, 30, 'inch')).toEqual({ unit: 'inch', unitFrom: 'stated' }));

  it('X3P is believed for any object between 1 and 400 mm, and asked about beyond', () => {
    for (const mm of [1, 3.8, 40, 400]) expect(decideUnit(x3p, mm / 1000, 40)).toEqual({ unit: 'm', unitFrom: 'file' });
    // Micrometres that the file calls metres: a face of 32 km.
    expect(decideUnit(x3p, 32_000)).toEqual({ ask: ['um'] });
    expect(decideUnit(x3p, 32_000, 32)).toEqual({ ask: ['um'] });
    expect(decideUnit(x3p, 40)).toEqual({ ask: ['mm'] });
    expect(decideUnit(x3p, 0.0009)).toEqual({ ask: ['m'] });
    expect(decideUnit(x3p, 32_000, undefined, 'um')).toEqual({ unit: 'um', unitFrom: 'stated' });
  });

  it('a stated unit that makes no face at all is asked about again, before anything is drawn in it', () => {
    expect(decideUnit(bare, 30, undefined, 'm')).toEqual({ ask: ['mm'] });
    expect(decideUnit(bare, 30, undefined, 'um')).toEqual({ ask: ['mm'] });
  });

  it('glTF is metres where that makes a seal, else it is told like any other file', () => {
    expect(decideUnit(gltf, 0.04)).toEqual({ unit: 'm', unitFrom: 'file' });
    expect(decideUnit(gltf, 40)).toEqual({ unit: 'mm', unitFrom: 'assumed' });
    expect(decideUnit(gltf, 12)).toEqual({ ask: ['mm', 'cm'] });
    expect(decideUnit(gltf, 500)).toEqual({ ask: ['um', 'mm'] });
  });

  it('one plausible unit is assumed, of several the user is asked', () => {
    expect(decideUnit(bare, 30)).toEqual({ unit: 'mm', unitFrom: 'assumed' });
    expect(decideUnit(bare, 12)).toEqual({ ask: ['mm', 'cm'] });
  });

  it('a partner of known size tells the unit of any seal of the same size, wax shrunk or plaster grown', () => {
    const cases = fc.tuple(
      fc.double({ min: 4, max: 160, noNaN: true }),
      fc.constantFrom(...units),
      fc.double({ min: 0.87, max: 1.15, noNaN: true }),
    );
    fc.assert(
      fc.property(cases, ([partnerMm, unit, ratio]) => {
        const decision = decideUnit(bare, (partnerMm * ratio) / mmPer[unit], partnerMm);
        return 'unit' in decision && decision.unit === unit && decision.unitFrom === 'assumed';
      }),
    );
  });

  it('a fragment half as long as its partner is told among plausible units only, or asked for', () => {
    expect(decideUnit(bare, 12, 24)).toEqual({ unit: 'mm', unitFrom: 'assumed' });
    // 11 mm or 28 mm: as a centimetre file a 0.61 fragment, as an inch file 1.55 times the partner.
    expect(decideUnit(bare, 1.1, 18)).toEqual({ ask: ['cm', 'inch'] });
  });

  it('of a pair, the scan that can be told alone helps the other; two unknowns stay unknown', () => {
    const both = (a: number, b: number) =>
      decideUnitsOfPair({ raw: bare, faceLongSide: a }, { raw: bare, faceLongSide: b });
    expect(both(12, 23)).toEqual([
      { unit: 'mm', unitFrom: 'assumed' },
      { unit: 'mm', unitFrom: 'assumed' },
    ]);
    expect(both(40, 4)).toEqual([
      { unit: 'mm', unitFrom: 'assumed' },
      { unit: 'cm', unitFrom: 'assumed' },
    ]);
    expect(both(4, 40)).toEqual([
      { unit: 'cm', unitFrom: 'assumed' },
      { unit: 'mm', unitFrom: 'assumed' },
    ]);
    expect(both(12, 12)).toEqual([{ ask: ['mm', 'cm'] }, { ask: ['mm', 'cm'] }]);
    expect(decideUnitsOfPair({ raw: bare, faceLongSide: 12, stated: 'mm' }, { raw: bare, faceLongSide: 12 })).toEqual([
      { unit: 'mm', unitFrom: 'stated' },
      { unit: 'mm', unitFrom: 'assumed' },
    ]);
  });

  it('scale the surface and its offset alike, and leave the numbers of an mm file alone', async () => {
    const raw = await readScan(textPly(ball(4, 1, [40, 50, -60])), 'a.ply');
    for (const unit of units) {
      const scan = toMillimetres(raw, unit, 'stated');
      expect(scan).toMatchObject({ unit, unitFrom: 'stated', vertices: raw.vertices });
      expect(scan).not.toHaveProperty('unitTrusted');
      const factor = mmPer[unit];
      expect(scan.mesh.offset).toEqual(raw.mesh.offset.map((value) => value * factor));
      raw.mesh.positions.forEach((value, i) => {
        expect(Math.abs(scan.mesh.positions[i] - value * factor)).toBeLessThanOrEqual(6e-8 * factor);
      });
    }
  });
});
