import { beforeEach, describe, expect, it } from 'vitest';
import type { Keyed } from '../../src/app/jobs/progress.ts';
import {
  addPair,
  afterRestating,
  completePairs,
  countAgain,
  leaveOut,
  markPlace,
  movePlace,
  removePair,
  startFromPairs,
  startFromTurn,
} from '../../src/app/state/byHand.ts';
import { type Document, emptyDocument } from '../../src/app/state/document.ts';
import { givenIn } from '../../src/app/state/given.ts';
import { historyOf } from '../../src/app/state/history.ts';
import { documentNow, setState, undo } from '../../src/app/state/store.ts';
import { findFace } from '../../src/core/face/index.ts';
import { apply, compose, invert, type Vec2 } from '../../src/core/geometry/index.ts';
import { comparisonKey } from '../../src/core/session.ts';
import type { FaceView } from '../../src/workers/browser/protocol.ts';
import { sheet } from '../face/scanned.ts';
import { freshState } from './freshState.ts';

const begun: Document = {
  ...emptyDocument,
  scans: ['a', 'b'].map((id) => ({ id, name: `${id}.ply`, title: id, stated: {} })),
  referenceId: 'a',
  subjectId: 'b',
};
beforeEach(() => {
  freshState();
  setState({ history: historyOf(begun) });
});

const faceOf = (sense: FaceView['sense']) => ({ at: 'ready', key: 'a', value: { sense } }) as Keyed<FaceView>;

describe('places marked by hand', () => {
  it('pair up in the order in which they are marked, whichever side comes first', () => {
    markPlace('reference', [1, 2]);
    markPlace('reference', [3, 4]);
    markPlace('subject', [5, 6]);
    expect(completePairs(documentNow().pairs)).toEqual([{ reference: [1, 2], subject: [5, 6] }]);
    markPlace('subject', [7, 8]);
    expect(completePairs(documentNow().pairs)).toHaveLength(2);
  });

  it('are each one act: undone one by one, moved and removed', () => {
    addPair();
    const [{ id }] = documentNow().pairs;
    movePlace(id, 'subject', [1, 1]);
    expect(documentNow().pairs[0].subject).toEqual([1, 1]);
    removePair(id);
    expect(documentNow().pairs).toEqual([]);
    undo();
    undo();
    expect(documentNow().pairs[0].subject).toEqual([0, 0]);
  });

  it('are where the fit begins when that is asked for, and name another comparison', () => {
    const key = () => comparisonKey('a', 'b', givenIn(documentNow(), faceOf('relief')));
    const before = key();
    for (const at of [
      [1, 2],
      [3, -4],
    ] as Vec2[]) {
      markPlace('reference', at);
      markPlace('subject', at);
    }
    expect(key()).toBe(before);
    startFromPairs();
    expect(documentNow().start).toEqual({ from: 'pairs', pairs: completePairs(documentNow().pairs) });
    expect(key()).not.toBe(before);
    expect(key().startsWith(before)).toBe(true);
  });

  it.each([
    ['a turn', 120, { from: 'turn', turnDeg: 120 }],
    ['a turn beyond the half', 300, { from: 'turn', turnDeg: -60 }],
    ['the turn that the search prefers, come back to', 359, null],
  ])('give way to %s', (_, turnDeg, start) => {
    startFromTurn(turnDeg);
    expect(documentNow().start).toEqual(start);
  });
});

describe('a face that is turned upright', () => {
  const mesh = sheet(30, 40, 0.5, (x, y) => 0.4 * Math.sin(x / 2) * Math.cos(y / 3) + 0.2 * Math.sin(x * y));
  const place: Vec2 = [4, 7];

  it.each(['relief', 'intaglio'] as const)('takes the places and regions along, on a face in %s', (sense) => {
    const before = findFace(mesh, { sense, upDeg: 5 });
    const after = findFace(mesh, { sense, upDeg: 30 });
    const [x, y] = apply(compose(after.faceFromScan, invert(before.faceFromScan)), [...place, 0]);
    const flip = sense === 'intaglio' ? -1 : 1;
    const outline: Vec2[] = [place, [0, 1], [1, 0]].map(([u, v]) => [flip * u, v]);
    const document: Document = {
      ...begun,
      scans: begun.scans.map((scan) => ({ ...scan, stated: { upDeg: 5 } })),
      pairs: [{ id: 'p', reference: place, subject: [1, 1] }],
      leftOut: [{ id: 'o', label: '', why: '', by: '', own: true, outline }],
    };
    const turned = afterRestating(document, 'a', { upDeg: 30 }, { sense } as FaceView);
    expect(turned.pairs[0].reference).toEqual([expect.closeTo(x, 6), expect.closeTo(y, 6)]);
    expect(turned.pairs[0].subject).toEqual([1, 1]);
    expect(turned.leftOut[0].outline[0]).toEqual([expect.closeTo(flip * x, 6), expect.closeTo(y, 6)]);
    expect(givenIn(turned, faceOf(sense)).excluded?.[0].outline[0]).toEqual([
      expect.closeTo(x, 6),
      expect.closeTo(y, 6),
    ]);
  });

  it('loses them where another face is meant, and keeps them where only words are stated', () => {
    const document: Document = { ...begun, pairs: [{ id: 'p', reference: place, subject: place }] };
    expect(afterRestating(document, 'b', { candidate: 1 }, undefined).pairs).toEqual([]);
    expect(afterRestating(document, 'b', { material: 'wax' }, undefined)).toBe(document);
    expect(afterRestating(document, 'c', { candidate: 1 }, undefined)).toBe(document);
  });
});

describe('a region that is left out', () => {
  const outline: Vec2[] = [
    [0, 0],
    [1, 0],
    [0, 1],
  ];
  const mark = { id: 'own-1', number: 1, label: 'Repair', own: true, outline };

  it('moves from the marks to what is left out, and back', () => {
    setState({ history: historyOf({ ...begun, ownMarks: [{ id: 'own-1', label: 'Repair', outline }] }) });
    leaveOut(mark);
    expect(documentNow().ownMarks).toEqual([]);
    expect(documentNow().leftOut).toMatchObject([{ label: 'Repair', outline }]);
    countAgain(documentNow().leftOut[0]);
    expect(documentNow().leftOut).toEqual([]);
    expect(documentNow().ownMarks).toMatchObject([{ label: 'Repair', outline }]);
  });

  it('comes to the core on the reference’s own face: an engraved one lies turned over on the plate', () => {
    leaveOut(mark);
    expect(givenIn(documentNow(), faceOf('intaglio')).excluded?.[0].outline).toEqual([
      [-0, 0],
      [-1, 0],
      [-0, 1],
    ]);
    expect(givenIn(documentNow(), faceOf('relief')).excluded?.[0].outline).toEqual(outline);
    expect(givenIn(begun, faceOf('relief'))).toEqual({});
  });
});
