import { expect, it } from 'vitest';
import { slidesOfDates } from '../../src/app/show/readyMade.ts';
import type { ChangeView } from '../../src/workers/browser/changeProtocol.ts';

const change = (id: string, direction: 'lowered' | 'raised') => ({
  ...{ id, direction, shape: 'area', words: `${direction} there.`, causes: ['one cause', 'another'] },
});

it('two dates are told to a room as a question, change after change, and all of them measured; causes are the speaker’s', () => {
  const view = {
    ...{ sentence: 'Two places changed.', limits: ['a limit'], map: {} },
    changes: [change('C1', 'lowered'), change('C2', 'raised')],
  } as unknown as ChangeView;
  const slides = slidesOfDates(view);
  expect(slides.map(({ dates }) => dates)).toEqual([
    { look: 'turn' },
    { look: 'turn', change: 'C1' },
    { look: 'turn', change: 'C2' },
    { look: 'map' },
  ]);
  // The room reads the question before any answer, and what a change can be is for the speaker alone.
  expect(slides[0].caption).toBe('');
  for (const { caption, question, notes } of slides.slice(1, 3)) {
    expect(`${question} ${caption}`).not.toContain('cause');
    expect(notes).toContain('one cause; another');
  }
  expect(slides.at(-1)).toMatchObject({ caption: 'Two places changed.', notes: 'a limit', reveals: false });
  expect(slidesOfDates({ ...view, map: null }).at(-1)?.dates).toEqual({ look: 'pair' });
});
