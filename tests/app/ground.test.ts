import { describe, expect, it } from 'vitest';
import { heightKept } from '../../src/app/plate/grounds/HeightKept.tsx';
import { enlargementOf, inside } from '../../src/app/plate/grounds/Places.tsx';
import { edgeAt, edgeSectors, extentOf, imageEdge } from '../../src/app/plate/imageEdge.ts';
import { lampAcross } from '../../src/app/state/ground.ts';
import { identity, seededRandom, turnOver } from '../../src/core/geometry/index.ts';
import type { Constellation } from '../../src/core/judge/index.ts';
import { fromHalf, halfBits } from '../../src/workers/browser/halfFloat.ts';
import type { FaceView } from '../../src/workers/browser/protocol.ts';
import { reliefPicture } from '../../src/workers/browser/reliefPicture.ts';

const random = seededRandom(7);
const strip = (deg: number): [number, number][] => {
  const a = (deg * Math.PI) / 180;
  return Array.from({ length: 20 }, (_, i) => [(i - 10) * Math.sin(a) + 3, (i - 10) * Math.cos(a) - 1]);
};

describe('the lamp across a mark', () => {
  it('stands at a right angle to its long axis, raking, on the upper left side', () => {
    for (let deg = 0; deg < 180; deg += 15) {
      const { azimuthDeg, heightDeg } = lampAcross(strip(deg), 0);
      expect(Math.abs(((azimuthDeg - deg + 720) % 180) - 90)).toBeLessThanOrEqual(1);
      expect(Math.abs(((azimuthDeg - 315 + 540) % 360) - 180)).toBeLessThanOrEqual(91);
      expect(heightDeg).toBeLessThan(20);
    }
  });

  it('turns with the picture', () => {
    const still = lampAcross(strip(30), 0).azimuthDeg;
    const turned = lampAcross(strip(30), 40).azimuthDeg;
    expect(Math.abs(((turned - still - 40 + 720) % 180) - 0) % 180).toBeLessThanOrEqual(1);
  });
});

const circle = (r: number, n = 90): Float64Array =>
  Float64Array.from({ length: 2 * n }, (_, i) => {
    const a = (Math.floor(i / 2) / n) * 2 * Math.PI;
    return r * (i % 2 === 0 ? Math.cos(a) : Math.sin(a));
  });
const lying = (sense: 'intaglio' | 'relief', r: number) => ({
  face: { sense, outline: { polygon: circle(r) } } as unknown as FaceView,
  lies: sense === 'intaglio' ? turnOver : identity,
});

describe('the edge of the image', () => {
  it('is the matrix’s, whatever wax stands round the impression', () => {
    const edge = imageEdge([lying('intaglio', 10), lying('relief', 16)]);
    for (let a = 0; a < 6.28; a += 0.1) expect(edgeAt(edge, a)).toBeCloseTo(10, 1);
  });

  it('of two alike is the smaller one’s, and the whole one’s where the other is a fragment', () => {
    expect(edgeAt(imageEdge([lying('relief', 12), lying('relief', 10)]), 1)).toBeCloseTo(10, 1);
    expect(edgeAt(imageEdge([lying('relief', 12), lying('relief', 5)]), 1)).toBeCloseTo(12, 1);
  });

  it('is held by its extent at every turn', () => {
    const edge = Float32Array.from({ length: edgeSectors }, () => random.between(8, 12));
    for (const turn of [0, 17, 90, 200]) {
      const [width, height] = extentOf(edge, turn);
      expect(Math.max(width, height) / 2).toBeLessThanOrEqual(Math.max(...edge) + 1e-6);
      expect(Math.min(width, height) / 2).toBeGreaterThan(7);
    }
  });
});

describe('what a ground draws', () => {
  it('enlarges shifts by a round number so that most stay short', () => {
    const landmarks = Array.from({ length: 50 }, () => ({ aloneSmooth: [random.between(-0.03, 0.03), 0.01] }));
    const enlarged = enlargementOf({ landmarks } as unknown as Constellation, 10);
    expect([5, 10, 20, 50, 100, 200, 500, 1000, 2000]).toContain(enlarged);
    const long = landmarks.filter(({ aloneSmooth: [x, y] }) => Math.hypot(x, y) * 10 * enlarged > 34).length;
    expect(long).toBeLessThanOrEqual(6);
  });

  it('reads half floats back as they were written', () => {
    for (let i = 0; i < 500; i++) {
      const value = random.between(-4, 4) * 10 ** random.between(-3, 0);
      expect(Math.abs(fromHalf(halfBits(value)) - value)).toBeLessThanOrEqual(Math.abs(value) / 2000 + 1e-7);
    }
  });

  it('tells the inside of a closed way', () => {
    for (let i = 0; i < 200; i++) {
      const [x, y] = [random.between(-12, 12), random.between(-12, 12)];
      const r = Math.hypot(x, y);
      if (Math.abs(r - 10) > 0.1) expect(inside(circle(10), x, y)).toBe(r < 10);
    }
  });

  it('finds the share of the height that is kept, on an engraved reference and a raised subject', () => {
    const grid = (share: number, sign: 1 | -1, upTo = Number.POSITIVE_INFINITY) => {
      const side = 160;
      const [z, mask] = [new Float32Array(side * side), new Uint8Array(side * side).fill(1)];
      const pitch = 0.2;
      for (let i = 0; i < z.length; i++) {
        const [x, y] = [sign * (-16 + (i % side) * pitch), 16 - Math.floor(i / side) * pitch];
        z[i] = sign * share * 0.4 * Math.sin(1.1 * x) * Math.cos(0.9 * y);
        if (x > upTo) mask[i] = 0;
      }
      return { width: side, height: side, pitch, left: -16, top: 16, z, mask };
    };
    const picture = (share: number, sign: 1 | -1) => reliefPicture(grid(share, sign));
    const matrix = { face: { sense: 'intaglio', picture: picture(1, -1) } as unknown as FaceView, lies: turnOver };
    for (const share of [1, 0.6, 0.3]) {
      const wax = { face: { sense: 'relief', picture: picture(share, 1) } as unknown as FaceView, lies: identity };
      const kept = heightKept(matrix, wax, []).filter((one) => !Number.isNaN(one));
      expect(kept.length).toBeGreaterThan(60);
      for (const one of kept) expect(one).toBeCloseTo(share, 1);
    }
    // Broken off right of 3 mm: nothing is told there, though some of each part is left.
    const broken = {
      face: { sense: 'relief', picture: reliefPicture(grid(0.6, 1, 3)) } as unknown as FaceView,
      lies: identity,
    };
    const kept = heightKept(matrix, broken, []);
    for (let i = 0; i < kept.length; i++)
      expect(Number.isNaN(kept[i])).toBe(Math.sin(((i + 0.5) / kept.length) * 2 * Math.PI) * 16 > 4.3);
  });
});
