import { describe, expect, it } from 'vitest';
import { identity, turnedClockwise } from '../../src/core/geometry/index.ts';
import { placeTurned, type Standing, turnOfSubject, uprightAlone, uprightTogether } from '../../src/core/read/index.ts';

const at = (deg: number) => ({ deg, hour: Math.round(deg / 30) % 12 || 12, radiusMm: 9 });
const round = (deg: number | null): Standing => ({
  ...{ sense: 'relief', outline: { shape: 'round' }, upFrom: 'scan' },
  top: deg === null ? null : { deg, from: 'motif' },
});

describe('places as they are seen', () => {
  it('do not depend on how the scan lay: its top and every place on it turn together', () => {
    for (let by = 0; by < 360; by += 15) {
      const lies = (deg: number): number => (deg + by) % 360;
      const { turnDeg } = uprightAlone(round(lies(0)));
      for (const deg of [0, 14, 97, 185, 300]) {
        const told = placeTurned(at(lies(deg)), turnDeg);
        expect(told.deg).toBeCloseTo(deg, 9);
        expect(told.hour).toBe(at(deg).hour);
        expect(told.radiusMm).toBe(9);
      }
    }
  });

  it('are the same whether the reference tells its top or its partner does', () => {
    for (const turn of [-170, -40, 0, 15, 90, 179]) {
      // The subject lies turned by so much on the reference, whose top is not known.
      const laid = turnOfSubject('relief', 'relief', turnedClockwise(turn));
      expect(laid).toBeCloseTo(turn, 9);
      const topOnReference = 33;
      const topOnSubject = topOnReference - turn;
      const own = uprightTogether(round(topOnReference), round(null), laid);
      const partners = uprightTogether(round(null), round(topOnSubject), laid);
      expect(placeTurned(at(50), partners.turnDeg).deg).toBeCloseTo(placeTurned(at(50), own.turnDeg).deg, 9);
    }
    expect(turnOfSubject('relief', 'relief', identity)).toBeCloseTo(0, 12);
  });
});
