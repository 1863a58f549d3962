import { beforeEach, describe, expect, it } from 'vitest';
import { afterRestating, withoutByHand } from '../../src/app/state/byHand.ts';
import { type Document, emptyDocument } from '../../src/app/state/document.ts';
import { givenIn } from '../../src/app/state/given.ts';
import { historyOf } from '../../src/app/state/history.ts';
import { addLandmark, landmarksFile, moveLandmark, removeLandmark, shownOf } from '../../src/app/state/landmarks.ts';
import { documentNow, setState, undo } from '../../src/app/state/store.ts';
import type { Vec2 } from '../../src/core/geometry/index.ts';
import type { Constellation, PlacedLandmark } from '../../src/core/judge/index.ts';
import { comparisonKey } from '../../src/core/session.ts';
import type { ComparisonView } from '../../src/workers/browser/protocol.ts';
import { freshState } from './freshState.ts';

const begun: Document = {
  ...emptyDocument,
  scans: ['a', 'b'].map((id) => ({ id, name: `${id}.ply`, title: id, stated: {} })),
  referenceId: 'a',
  subjectId: 'b',
};
const placed = (x: number, y: number, off: number): PlacedLandmark => ({
  ...{ x, y, dx: 0.1, dy: 0, alone: [off, 0], aloneSmooth: [off, 0], correlation: 0.9 },
  ellipse: { majorMm: 0.05, minorMm: 0.05, deg: 0 },
});
const constellation: Constellation = {
  ...{ landmarks: [placed(1, 2, 0.01), placed(3, 4, 0.5)], found: 3, unseen: [{ x: -5, y: 6 }] },
  ...{ oneScaleMm: 0.1, smoothMm: 0.1, outside: 0.5 },
};
const view = { key: 'a\nb', judgement: { constellation } } as unknown as ComparisonView;
const found: Vec2[] = [
  [1, 2],
  [3, 4],
  [-5, 6],
];

beforeEach(() => {
  freshState();
  setState({ history: historyOf(begun), held: view });
});

describe('landmarks put by hand', () => {
  it('are those found until the first is touched, and then the user’s', () => {
    expect(JSON.parse(landmarksFile()).landmarks).toEqual(found);
    expect(documentNow().landmarks).toBeNull();
    moveLandmark(1, [3.00049, 4.2]);
    expect(documentNow().landmarks).toEqual([found[0], [3, 4.2], found[2]]);
    addLandmark([7, 8]);
    removeLandmark(0);
    expect(documentNow().landmarks).toEqual([
      [3, 4.2],
      [-5, 6],
      [7, 8],
    ]);
    for (let i = 0; i < 3; i++) undo();
    expect(documentNow().landmarks).toBeNull();
  });

  it('are told apart by where they lie: in place, off, unseen, and not looked at yet', () => {
    expect(shownOf(view, null).map(({ how }) => how)).toEqual(['agrees', 'off', 'unseen']);
    const how = shownOf(view, [
      [3, 4],
      [3.1, 4],
      [-5, 6],
    ]).map((one) => one.how);
    expect(how).toEqual(['off', 'new', 'unseen']);
  });

  it('name another comparison, and are what the core is given', () => {
    const key = () => comparisonKey('a', 'b', givenIn(documentNow(), undefined));
    const before = key();
    moveLandmark(0, [1, 2.5]);
    expect(key()).not.toBe(before);
    expect(givenIn(documentNow(), undefined).landmarks?.[0]).toEqual({ x: 1, y: 2.5 });
    undo();
    expect(key()).toBe(before);
  });

  it('turn with the reference’s face, stay when the subject is turned, and end with another face', () => {
    const document = { ...begun, landmarks: [[0, 1]] as Vec2[] };
    const [[x, y]] = afterRestating(document, 'a', { upDeg: 90 }, undefined).landmarks ?? [[0, 0]];
    // Clockwise: what was up is right.
    expect([x, y]).toEqual([expect.closeTo(1, 12), expect.closeTo(0, 12)]);
    expect(afterRestating(document, 'b', { upDeg: 90 }, undefined).landmarks).toEqual([[0, 1]]);
    expect(afterRestating(document, 'a', { unit: 'cm' }, undefined).landmarks).toBeNull();
    expect(withoutByHand(document).landmarks).toBeNull();
  });
});
