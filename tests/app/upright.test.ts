import { describe, expect, it } from 'vitest';
import { turnedOnFace, uprightOf, uprightOfPair } from '../../src/app/state/upright.ts';
import { identity, rotationAbout } from '../../src/core/geometry/index.ts';
import type { Upright } from '../../src/core/read/index.ts';
import type { ComparisonView, FaceView } from '../../src/workers/browser/protocol.ts';

const face = (part: Partial<FaceView>, shape = 'round'): FaceView =>
  ({ sense: 'relief', upFrom: 'scan', outline: { shape }, ...part }) as FaceView;

/** Reference ← subject: turned by so many degrees clockwise as seen on the subject, two of one sense. */
const turned = (deg: number, mirrored = false): ComparisonView => {
  const motion = { ...identity, rotation: rotationAbout([0, 0, 1], (-deg * Math.PI) / 180) };
  return {
    fit: { found: true, chosen: 'rigid', mirrored },
    referenceFaceFromSubjectFace: { rigid: motion },
  } as unknown as ComparisonView;
};

const near = (one: Upright, turnDeg: number, from: Upright['from']): void => {
  expect(one.turnDeg).toBeCloseTo(turnDeg, 6);
  expect(one.from).toBe(from);
};

describe('upright', () => {
  const pointed = face({ upFrom: 'longAxis' }, 'pointedOval');
  const cake = face({ upFrom: 'longAxis' }, 'oval');

  it('a face that lies askew in its cake stands as its partner does, whichever of the two it is', () => {
    near(uprightOf(cake, { reference: pointed, subject: cake, comparison: turned(15) }), 15, 'partner');
    near(uprightOf(cake, { reference: cake, subject: pointed, comparison: turned(-15) }), 15, 'partner');
    near(uprightOf(pointed, { reference: cake, subject: pointed, comparison: turned(-15) }), 0, 'longAxis');
  });

  it('what the user states beats an axis, an axis a motif, a motif a cross, a cross the scan', () => {
    const ranked = [
      face({ upFrom: 'stated' }),
      pointed,
      cake,
      face({ upright: { turnDeg: 0, from: 'motif' } }),
      face({ upright: { turnDeg: 0, from: 'cross' } }),
      face({}),
    ];
    ranked.forEach((firm, i) => {
      for (const weak of ranked.slice(i + 1)) {
        const pair = { reference: weak, subject: firm, comparison: turned(40) };
        expect(uprightOfPair(pair).turnDeg).toBeCloseTo(-40, 6);
        expect(uprightOfPair({ ...pair, reference: firm, subject: weak }).turnDeg).toBe(0);
      }
    });
  });

  it('nothing is taken through a mirror or without a fit', () => {
    near(uprightOf(cake, { reference: pointed, subject: cake, comparison: turned(15, true) }), 0, 'longAxis');
    near(uprightOf(cake, { reference: pointed, subject: cake, comparison: undefined }), 0, 'longAxis');
  });

  it('an engraved face turns the other way as seen on itself', () => {
    const engraved = face({ sense: 'intaglio', upright: { turnDeg: 30, from: 'cross' } });
    const alone = { reference: engraved, subject: undefined, comparison: undefined };
    near(uprightOf(engraved, alone), -30, 'cross');
    expect(turnedOnFace(engraved, alone)).toBe(30);
  });
});
