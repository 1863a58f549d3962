import { describe, expect, it } from 'vitest';
import { acted, historyOf, redone, settled, undone } from '../../src/app/state/history.ts';

describe('undo and redo', () => {
  it('gives back every state in turn, and forward again', () => {
    let history = historyOf(0);
    for (let i = 1; i <= 5; i++) history = acted(history, i, `act ${i}`);
    const back: number[] = [];
    for (let i = 0; i < 5; i++) {
      history = undone(history);
      back.push(history.present);
    }
    expect(back).toEqual([4, 3, 2, 1, 0]);
    for (let i = 1; i <= 5; i++) {
      history = redone(history);
      expect(history.present).toBe(i);
    }
    expect(redone(history)).toBe(history);
  });

  it('counts one drag as one act, until it is settled', () => {
    let history = acted(historyOf(0), 1, 'moved', 'camera');
    history = acted(history, 2, 'moved', 'camera');
    history = acted(settled(history), 3, 'moved', 'camera');
    expect(history.past.length).toBe(2);
    expect(undone(history).present).toBe(2);
    expect(undone(undone(history)).present).toBe(0);
  });

  it('forgets what was undone once something else is done', () => {
    const history = acted(undone(acted(historyOf('a'), 'b', 'one')), 'c', 'two');
    expect(history.future).toEqual([]);
    expect(undone(history).present).toBe('a');
  });

  it('does not count an act that changes nothing', () => {
    const history = historyOf('a');
    expect(acted(history, 'a', 'nothing')).toBe(history);
  });
});
