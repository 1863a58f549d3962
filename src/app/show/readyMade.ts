import type { Ground } from '../../core/report/index.ts';
import { uncapital } from '../../core/scan/index.ts';
import type { ChangeView } from '../../workers/browser/changeProtocol.ts';
import { changeLabel } from '../change/changeWords.ts';
import { restingView, type ScanEntry, type Slide } from '../state/document.ts';
import { newId } from '../state/newId.ts';

const slide = (part: Partial<Slide>): Slide => ({
  ...{ id: newId(), question: '', caption: '', reveals: false, view: restingView },
  ...part,
});

/** What the speaker should have at hand when the room objects. */
const cautionOf = ({ against, overturn }: Ground): string =>
  `Against it: ${uncapital(against)} It would be overturned by ${uncapital(overturn)}`;

/** The walk over the grounds as a seminar: the question before two bare seals, ground after ground, then what follows. */
export const slidesOfGrounds = (grounds: readonly Ground[]): Slide[] => [
  slide({ question: 'From one matrix, or from two?', view: { ...restingView, outlines: false } }),
  ...grounds.map((ground) =>
    slide({ question: ground.title, caption: ground.says, notes: cautionOf(ground), ground: ground.code }),
  ),
  slide({ question: 'What follows?', reveals: true, view: { ...restingView, outlines: false } }),
];

/** Two dates as a seminar: both in turn, change after change on the earlier, then all of them as they were measured. */
export const slidesOfDates = ({ sentence, changes, limits, map }: ChangeView): Slide[] => [
  slide({ question: 'What has happened to it?', dates: { look: 'turn' } }),
  ...changes.map((change) =>
    slide({
      ...{ question: changeLabel(change), caption: change.words },
      notes: `It can be ${change.causes.join('; ')}. The order means nothing.`,
      dates: { look: 'turn', change: change.id },
    }),
  ),
  slide({
    ...{ question: 'What changed, and what did not?', caption: sentence },
    ...(limits.length > 0 && { notes: limits.join(' ') }),
    dates: { look: map ? 'map' : 'pair' },
  }),
];

/** At most so many riddles in a set. */
const mostRiddles = 12;

/** A set of riddles: one seal with each of the others, without names or marks until it is told. Their order says nothing of them. */
export function riddles(a: ScanEntry, others: readonly ScanEntry[], shaOf: (id: string) => string): Slide[] {
  const mixed = [...others].sort((p, q) => (shaOf(p.id) < shaOf(q.id) ? -1 : 1)).slice(0, mostRiddles);
  return mixed.map((b) =>
    slide({
      question: 'From one matrix, or from two?',
      ...{ pair: [a.id, b.id] as const, unnamed: true, reveals: true },
      view: { ...restingView, outlines: false },
    }),
  );
}
