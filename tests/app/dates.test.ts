import { beforeEach, describe, expect, it } from 'vitest';
import { documentSchema } from '../../src/app/admission/documentSchema.ts';
import { panesOf } from '../../src/app/change/panesOf.ts';
import { changeNow, chooseChange, lookAt, setChange, turnDates } from '../../src/app/change/state/changeStore.ts';
import {
  bringDates,
  byReading,
  datedAs,
  datesOf,
  exchangeDates,
  layDates,
  placedAt,
} from '../../src/app/state/dates.ts';
import { type Document, emptyDocument, noDates, type ScanEntry } from '../../src/app/state/document.ts';
import { historyOf } from '../../src/app/state/history.ts';
import { documentNow, getState, setState, undo } from '../../src/app/state/store.ts';
import type { ShownChange } from '../../src/workers/browser/changeProtocol.ts';
import { freshState } from './freshState.ts';

const scan = (id: string, more: Partial<ScanEntry> = {}): ScanEntry => ({
  ...{ id, name: `${id}.ply`, title: id, stated: {} },
  ...more,
});
const lying = (...ids: string[]): Document => ({ ...emptyDocument, scans: ids.map((id) => scan(id)) });
const begin = (document: Document): void => setState({ history: historyOf(document), step: 'bringIn' });

beforeEach(freshState);

describe('which scan stands for which date', () => {
  it('follows the names as one reads them, and can be exchanged with the repeats', () => {
    expect(['seal 10', 'seal 2', '1998'].map((name) => ({ name })).sort(byReading)).toEqual([
      { name: '1998' },
      { name: 'seal 2' },
      { name: 'seal 10' },
    ]);
    begin(lying('2019', '1987'));
    layDates(scan('2019'), scan('1987'));
    expect(documentNow().dates).toMatchObject({ earlierId: '1987', laterId: '2019' });
    expect(getState().step).toBe('change');
    begin({ ...documentNow(), dates: { ...documentNow().dates, laterAgainId: 'again' } });
    exchangeDates();
    expect(documentNow().dates).toEqual({
      earlierId: '2019',
      laterId: '1987',
      earlierAgainId: 'again',
      laterAgainId: null,
    });
  });

  it('is one date for each scan', () => {
    const dates = placedAt({ ...noDates, earlierId: 'a', laterId: 'b' }, 'laterAgainId', 'a');
    expect(dates).toEqual({ earlierId: null, laterId: 'b', earlierAgainId: null, laterAgainId: 'a' });
  });

  it('asks no question of matrices of a pair that is one object, and undo asks it again', () => {
    begin({ ...lying('a', 'b'), referenceId: 'a', subjectId: 'b', compare: true });
    layDates(scan('a'), scan('b'));
    expect(documentNow().compare).toBe(false);
    undo();
    expect(documentNow().compare).toBe(true);
    const other = datedAs(
      { ...lying('a', 'b', 'c'), referenceId: 'a', subjectId: 'c', compare: true },
      { ...noDates, earlierId: 'a', laterId: 'b' },
    );
    expect(other.compare).toBe(true);
  });

  it('is kept; a scan that is gone stands for none', () => {
    const dates = { ...noDates, earlierId: 'a', laterId: 'gone' };
    const kept = documentSchema.parse(JSON.parse(JSON.stringify({ ...lying('a'), dates })));
    expect(kept.dates).toEqual({ ...noDates, earlierId: 'a' });
    expect(datesOf({ ...lying('a'), dates }).laterId).toBeUndefined();
    const { dates: _none, ...older } = lying('a');
    expect(documentSchema.parse(JSON.parse(JSON.stringify(older))).dates).toEqual(noDates);
  });
});

describe('files let go in the room', () => {
  const file = (name: string) => ({ name, file: new Blob(['ply']) });
  const named = (): Array<string | undefined> => {
    const { earlierId, laterId } = datesOf(documentNow());
    return [earlierId?.name, laterId?.name];
  };

  it('are the two dates, in one act, and take no place on the plate', () => {
    begin(emptyDocument);
    void bringDates([file('later 2.ply'), file('later 10.ply'), file('z.ply')]);
    expect(named()).toEqual(['later 2.ply', 'later 10.ply']);
    expect(documentNow().fresh).toEqual([]);
    expect(getState().notice).toMatch(/two dates take two scans/i);
    undo();
    expect(documentNow()).toEqual(emptyDocument);
  });

  it('fill one date each where they come one by one', () => {
    begin(emptyDocument);
    void bringDates([file('b.ply')], 'laterId');
    void bringDates([file('a.ply')]);
    expect(named()).toEqual(['a.ply', 'b.ply']);
    void bringDates([file('c.ply')]);
    expect(named()).toEqual(['a.ply', 'b.ply']);
    expect(getState().notice).toMatch(/which of them/);
    void bringDates([file('d.ply')], 'earlierAgainId');
    expect(datesOf(documentNow()).earlierAgainId?.name).toBe('d.ply');
  });

  it('have the pair make room that the page laid out by itself', () => {
    const opening = { ...lying('a', 'b'), referenceId: 'a', subjectId: 'b', compare: true };
    begin({ ...opening, scans: opening.scans.map((one) => ({ ...one, opening: true })) });
    void bringDates([file('1.ply'), file('2.ply')]);
    expect(documentNow()).toMatchObject({ referenceId: null, subjectId: null, compare: false });
    expect(documentNow().scans.map(({ name }) => name)).toEqual(['1.ply', '2.ply']);
  });
});

describe('the plate of two dates', () => {
  const size = { width: 800, height: 600 };
  const seen = (...asked: Parameters<typeof panesOf>): string[] =>
    panesOf(...asked).flatMap(({ id, from, to }) => (to > from ? [id] : []));

  it('shows one date whole at a time and holds the other ready', () => {
    expect(seen('turn', 'earlier', size)).toEqual(['a']);
    expect(seen('turn', 'later', size)).toEqual(['b']);
    expect(panesOf('turn', 'earlier', size).map(({ role }) => role)).toEqual(['reference', 'subject']);
    expect(seen('pair', 'later', size)).toEqual(['a', 'b']);
    expect(panesOf('map', 'later', size)[0]).toMatchObject({ role: 'reference', differences: true, to: 800 });
  });

  it('turns to the other date from every look, and rests where it is looked at otherwise', () => {
    lookAt('map');
    turnDates();
    expect(changeNow()).toMatchObject({ look: 'turn', onTop: 'later' });
    setChange({ alternating: true });
    lookAt('pair');
    expect(changeNow().alternating).toBe(false);
  });

  it('turns the lamp across the change that is chosen, and gives it back', () => {
    const crack = {
      id: 'c1',
      outline: [
        [0, 0],
        [4, 0],
        [4, 0.2],
        [0, 0.2],
      ],
    } as unknown as ShownChange;
    chooseChange(crack);
    expect(getState().standIn?.lamp).toMatchObject({ azimuthDeg: 0, heightDeg: 12 });
    chooseChange(null);
    expect(getState().standIn).toBeNull();
  });
});
