import {
  erased,
  expandedAt,
  missed,
  type Penned,
  penMoved,
  stated,
  turned,
  written,
} from '../../src/app/read/state/pen.ts';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { emptyTranscription } from '../../src/core/read/index.ts';

export {
  emptyTranscription,
  expanded,
  fromTei,
  type Item,
  leidenText,
  suggestionsFor,
  toTei,
  validateTranscription,
} from '../../src/core/read/index.ts';

/** Somebody who presses keys at random: writes, marks, goes back, strikes out. */
export function seededTypist(seed: number, presses: number): Penned {
  const random = seededRandom(seed);
  let now: Penned = { transcription: emptyTranscription, pen: { at: 0, alongMm: 0 } };
  const conjecture = { from: 'conjecture' } as const;
  const pressed: readonly (() => Penned)[] = [
    () => written(now.transcription, now.pen, random.pick([...'abcdeprst+·']), now.pen.alongMm + 2) ?? now,
    () => written(now.transcription, now.pen, ' ', now.pen.alongMm) ?? now,
    () => missed(now.transcription, now.pen, random.pick(['lost', 'illegible']), now.pen.alongMm + 2),
    () => erased(now.transcription, now.pen, 0, random.between(0, 1) < 0.3),
    () => expandedAt(now.transcription, now.pen, random.pick(['igillum', '', null])),
    () => ({
      ...now,
      transcription: stated(
        now.transcription,
        now.pen.at,
        random.pick(['doubtful', 'supplied', 'omitted', 'superfluous']),
        conjecture,
      ),
    }),
    () => ({ ...now, transcription: turned(now.transcription, now.pen.at, random.pick(['joined', 'reversed'])) }),
    () => ({ ...now, pen: penMoved(now.transcription.items, 0, now.pen, random.pick([-1, 1]), 2) }),
  ];
  for (let k = 0; k < presses; k++) now = (random.between(0, 1) < 0.5 ? pressed[0] : random.pick(pressed))();
  return now;
}
