import { describe, expect, it } from 'vitest';
import { beyondRim, lampAt, lampPlace, type Ring, rimAt, turnedLamp } from '../../src/app/plate/ring.ts';
import { towardLamp } from '../../src/app/scene/placing.ts';

const oval: Ring = {
  centre: [300, 400],
  rimPx: Array.from({ length: 144 }, (_, i) => {
    const a = (i / 144) * 2 * Math.PI;
    return 1 / Math.hypot(Math.sin(a) / 180, Math.cos(a) / 280);
  }),
};

describe('the lamp on its ring', () => {
  it('is read back from where it stands, to a degree', () => {
    for (let azimuthDeg = 0; azimuthDeg < 360; azimuthDeg += 7)
      for (const heightDeg of [2, 15, 25, 60, 85]) {
        const back = lampAt(oval, ...lampPlace(oval, { azimuthDeg, heightDeg }));
        expect(back).toEqual({ azimuthDeg, heightDeg });
      }
  });

  it('stands nearer to the rim the higher it is', () => {
    const reach = [2, 20, 40, 60, 85].map(beyondRim);
    expect([...reach].sort((a, b) => b - a)).toEqual(reach);
    expect(Math.min(...reach)).toBeGreaterThan(0);
  });

  it('stands at the upper left at 315°, and lights from there', () => {
    const [x, y] = lampPlace(oval, { azimuthDeg: 315, heightDeg: 25 });
    expect(x).toBeLessThan(300);
    expect(y).toBeLessThan(400);
    const toward = towardLamp({ azimuthDeg: 315, heightDeg: 25 });
    expect(toward.x).toBeCloseTo(-Math.SQRT1_2 * Math.cos((25 * Math.PI) / 180), 12);
    expect(toward.y).toBeCloseTo(Math.SQRT1_2 * Math.cos((25 * Math.PI) / 180), 12);
    expect(toward.z).toBeCloseTo(Math.sin((25 * Math.PI) / 180), 12);
  });

  it('goes round and stays above the face', () => {
    expect(turnedLamp({ azimuthDeg: 355, heightDeg: 25 }, 10, 0).azimuthDeg).toBe(5);
    expect(turnedLamp({ azimuthDeg: 5, heightDeg: 25 }, -10, -90)).toEqual({ azimuthDeg: 355, heightDeg: 2 });
    expect(rimAt(oval, 0)).toBeCloseTo(280, 6);
    expect(rimAt(oval, 90)).toBeCloseTo(180, 6);
  });
});
