import { describe, expect, it } from 'vitest';
import { type Document, emptyDocument, keyOf, type ScanEntry } from '../../src/app/state/document.ts';
import { byRole, type Faces, isSeating, pairOf, seatFresh } from '../../src/app/state/seats.ts';
import type { Kind } from '../../src/core/scan/index.ts';
import type { FaceView } from '../../src/workers/browser/protocol.ts';

/** A face as seating looks at it. */
const face = (kind: Kind, longMm: number, sha256: string): FaceView =>
  ({
    kind,
    sense: kind === 'matrix' || kind === 'mould' ? 'intaglio' : 'relief',
    outline: { widthMm: 0.7 * longMm, heightMm: longMm },
    sha256,
  }) as FaceView;

const known: Readonly<Record<string, FaceView>> = {
  matrix: face('matrix', 62, 'd'),
  good: face('impression', 68, 'c'),
  worn: face('impression', 62.5, 'b'),
  cast: face('cast', 61, 'a'),
};
const scan = (id: string, opening = false): ScanEntry => ({
  ...{ id, name: `${id}.ply`, stated: {}, title: id },
  ...(opening && { opening }),
});
const ready = (ids: readonly string[]): Faces =>
  Object.fromEntries(
    ids.map((id) => [id, { at: 'ready', key: keyOf(scan(id)), value: known[id] ?? face('matrix', 30, id) }]),
  );
const failed = (id: string, code: 'unitNeeded' | 'truncated'): Faces => ({
  [id]: { at: 'failed', key: keyOf(scan(id)), failure: { ok: false, code, message: '' } },
});
const brought = (ids: readonly string[], before: Document = emptyDocument): Document => ({
  ...before,
  scans: [...before.scans, ...ids.map((id) => scan(id))],
  fresh: ids,
});
const permutations = <T>(all: readonly T[]): T[][] =>
  all.length < 2
    ? [[...all]]
    : all.flatMap((one, i) => permutations(all.filter((_, k) => k !== i)).map((rest) => [one, ...rest]));

const opening: Document = {
  ...emptyDocument,
  scans: [scan('demoA', true), scan('demoB', true)],
  ...{ referenceId: 'demoA', subjectId: 'demoB', compare: true },
};

describe('seats', () => {
  it('are one and the same whatever the order of the files and of their being read', () => {
    const ids = Object.keys(known);
    const seen = permutations(ids).map((order) => {
      const pair = pairOf(order.map((id) => ({ id, face: known[id] })));
      return pair?.map(({ id }) => id).join(' ');
    });
    expect(new Set(seen)).toEqual(new Set(['matrix worn']));
    for (const order of permutations(ids))
      for (const reading of permutations(ids)) {
        let document = brought(order);
        // One after the other becomes readable.
        for (let n = 1; n <= reading.length; n++) document = seatFresh(document, ready(reading.slice(0, n)));
        expect([document.referenceId, document.subjectId, document.compare, document.fresh]).toEqual([
          ...['matrix', 'worn', true, []],
        ]);
      }
  });

  it('nor do they for any of the sample story’s files, as many of them as may come', () => {
    // Kind and long side of every sample, mm, as each is described (npx ectype describe sample-scans/FILE).
    const story: Readonly<Record<string, FaceView>> = {
      castOfWorn: face('cast', 61.1, 'f'),
      good: face('impression', 68.4, 'e'),
      trial: face('impression', 64, 'd'),
      worn: face('impression', 62.5, 'c'),
      recast: face('matrix', 60.1, 'b'),
      matrix: face('matrix', 61.6, 'a'),
      second: face('impression', 64.7, '9'),
    };
    const ids = Object.keys(story);
    for (let some = 3; some < 1 << ids.length; some++) {
      const here = ids.filter((_, k) => some & (1 << k)).map((id) => ({ id, face: story[id] }));
      // Turned round and reversed: with swaps of neighbours these reach every order, and a choice by order would show in one of them.
      const orders = here.flatMap((_, k) => {
        const turned = [...here.slice(k), ...here.slice(0, k)];
        return [turned, [...turned].reverse()];
      });
      const seen = new Set(
        orders.map((order) =>
          pairOf(order)
            ?.map(({ id }) => id)
            .join(' '),
        ),
      );
      expect(seen.size).toBe(1);
    }
  });

  it('put what was made first in front, and never depend on which of two is named first', () => {
    const all = Object.entries(known).map(([id, one]) => ({ id, face: one }));
    for (const a of all)
      for (const b of all) if (a !== b) expect(Math.sign(byRole(a, b))).toBe(-Math.sign(byRole(b, a)));
    expect(all.sort(byRole).map(({ id }) => id)).toEqual(['matrix', 'good', 'worn', 'cast']);
  });

  it('are taken by a fresh pair, and the demonstration goes', () => {
    const document = seatFresh(brought(['worn', 'matrix'], opening), ready(['worn', 'matrix']));
    expect([document.referenceId, document.subjectId]).toEqual(['matrix', 'worn']);
    expect(document.scans.map(({ id }) => id)).toEqual(['worn', 'matrix']);
    const own = { ...brought(['good', 'matrix']), fresh: [], referenceId: 'matrix', subjectId: 'good' };
    const second = seatFresh(brought(['cast', 'worn'], own), ready(['cast', 'worn', 'good', 'matrix']));
    expect([second.referenceId, second.subjectId, second.scans.length]).toEqual(['worn', 'cast', 4]);
  });

  it('are never left for what cannot be read', () => {
    const document = seatFresh(brought(['bad'], opening), failed('bad', 'truncated'));
    expect([document.referenceId, document.subjectId, document.compare]).toEqual(['demoA', 'demoB', true]);
    expect(document.scans).toHaveLength(3);
  });

  it('wait for all that came, and measure no pair before: nobody is compared with a stranger', () => {
    const document = brought(['worn', 'matrix'], opening);
    const half = seatFresh(document, ready(['worn']));
    expect([half.referenceId, half.subjectId, half.compare]).toEqual([null, 'worn', false]);
    expect(isSeating(half, ready(['worn']))).toBe(true);
    expect(isSeating(half, ready(['worn', 'matrix']))).toBe(false);
  });

  it('wait for a unit that is asked, and take the scan when it is told', () => {
    const faces = { ...ready(['matrix']), ...failed('worn', 'unitNeeded') };
    const asked = seatFresh(brought(['worn', 'matrix']), faces);
    expect([asked.referenceId, asked.subjectId, asked.fresh]).toEqual(['matrix', null, ['worn', 'matrix']]);
    const told = seatFresh(asked, ready(['matrix', 'worn']));
    expect([told.referenceId, told.subjectId, told.compare, told.fresh]).toEqual(['matrix', 'worn', true, []]);
  });

  it('claim nothing while one of several is asked its unit, and are then those of a unit known from the start', () => {
    // Odric's impression is asked; his matrix and a stranger's wax can be read.
    const here: Readonly<Record<string, FaceView>> = {
      his: face('matrix', 14.6, '3'),
      asked: face('impression', 14.5, '2'),
      stranger: face('impression', 60.7, '1'),
    };
    const read = (id: string): Faces => ({ [id]: { at: 'ready', key: keyOf(scan(id)), value: here[id] } });
    const own = { ...brought(['good', 'matrix']), ...{ fresh: [], referenceId: 'matrix', subjectId: 'good' } };
    for (const before of [emptyDocument, opening, { ...own, compare: true }])
      for (const order of permutations(Object.keys(here))) {
        const document = brought(order, before);
        const known = seatFresh(document, { ...read('his'), ...read('asked'), ...read('stranger') });
        expect([known.referenceId, known.subjectId, known.compare]).toEqual(['his', 'asked', true]);
        for (const reading of permutations(Object.keys(here))) {
          let faces: Faces = {};
          let now = document;
          for (const id of reading) {
            faces = { ...faces, ...(id === 'asked' ? failed(id, 'unitNeeded') : read(id)) };
            now = seatFresh(now, faces);
            expect([now.referenceId, now.subjectId].filter((one) => Object.keys(here).includes(one ?? '')).length).toBe(
              Object.values(faces).some(({ at }) => at === 'ready') ? 1 : 0,
            );
            expect(now.compare && now.fresh.includes(now.referenceId ?? '')).toBe(false);
          }
          expect([now.referenceId, now.subjectId, now.fresh]).toEqual(['his', null, order]);
          // Told, it is read again, and then it is there.
          now = seatFresh(now, { ...read('his'), ...read('stranger') });
          expect([now.referenceId, now.subjectId]).toEqual(['his', null]);
          expect(seatFresh(now, { ...faces, ...read('asked') })).toEqual(known);
        }
      }
  });

  it('let a scan that comes alone join the one that lies there', () => {
    const one = { ...brought(['good']), fresh: [], subjectId: 'good' };
    const document = seatFresh(brought(['matrix'], one), ready(['good', 'matrix']));
    expect([document.referenceId, document.subjectId, document.compare]).toEqual(['matrix', 'good', true]);
  });
});
