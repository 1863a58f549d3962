import { type Item, type SignName, signs } from '../../../core/read/index.ts';
import { notify } from '../../state/store.ts';
import { legendNow, transcribe, transcribed } from '../state/acts.ts';
import {
  erased,
  expandedAt,
  missed,
  type Pen,
  pasted,
  penMoved,
  penWithin,
  ringSpan,
  signed,
  signKeys,
  standsBefore,
  stated,
  turned,
  withRing,
  written,
} from '../state/pen.ts';
import { readNow, setRead } from '../state/readStore.ts';

/** What the keys need to know of the strip they write on. */
export interface Desk {
  readonly scanId: string;
  readonly ring: number;
  /** Usual distance from letter to letter, mm. */
  readonly advanceMm: number;
  /** Where the next letter is likely to stand after one at this place. */
  nextMm(alongMm: number, before?: string): number;
  /** Where this letter is likely to stand behind that one. */
  placeMm(beforeMm: number, before: string, text: string, spaced: boolean): number;
}

/** Keys that say something about the letter before the pen, as Leiden prints it, and what the row of keys calls them. */
export const stateKeys = [
  { key: '?', words: 'doubtful', run: (desk: Desk) => state(desk, 'doubtful') },
  { key: '[', words: 'supplied', run: (desk: Desk) => state(desk, 'supplied') },
  { key: '<', words: 'left out', run: (desk: Desk) => state(desk, 'omitted') },
  { key: '{', words: 'too many', run: (desk: Desk) => state(desk, 'superfluous') },
  { key: '&', words: 'ligature', run: (desk: Desk) => turn(desk, 'joined') },
  { key: '!', words: 'reversed', run: (desk: Desk) => turn(desk, 'reversed') },
  { key: '-', words: 'lost', run: (desk: Desk) => miss(desk, 'lost') },
  { key: '.', words: 'traces', run: (desk: Desk) => miss(desk, 'illegible') },
  { key: '(', words: 'stands for…', run: (desk: Desk) => beginExpansion(desk) },
] as const;

function now(desk: Desk) {
  const { transcription } = legendNow(desk.scanId);
  const items = withRing(transcription.items, desk.ring);
  const ready = items === transcription.items ? transcription : { ...transcription, items: [...items] };
  return { transcription: ready, pen: penWithin(items, desk.ring, readNow().pen) };
}

function state(desk: Desk, which: Parameters<typeof stated>[2]): void {
  const { transcription, pen } = now(desk);
  transcribe(desk.scanId, 'Letter’s state changed', stated(transcription, pen.at, which, readNow().source));
}

function turn(desk: Desk, what: 'joined' | 'reversed'): void {
  const { transcription, pen } = now(desk);
  transcribe(desk.scanId, what === 'joined' ? 'Ligature' : 'Letter reversed', turned(transcription, pen.at, what));
}

function miss(desk: Desk, reason: 'lost' | 'illegible'): void {
  const { transcription, pen } = now(desk);
  transcribed(desk.scanId, 'Missing letter', missed(transcription, pen, reason, desk.nextMm(pen.alongMm)));
}

function beginExpansion(desk: Desk): void {
  const { transcription, pen } = now(desk);
  const before = transcription.items[pen.at - 1];
  setRead({ expanding: before?.kind === 'expansion' ? (before.text ?? '') : '' });
}

export function endExpansion(desk: Desk, text: string | null): void {
  const { transcription, pen } = now(desk);
  transcribed(desk.scanId, 'Abbreviation solved', expandedAt(transcription, pen, text));
  setRead({ expanding: null });
}

export function writeSign(desk: Desk, name: SignName): void {
  const { transcription, pen } = now(desk);
  const { glyph } = signs[name];
  const at = standing(desk, transcription.items, pen, glyph);
  transcribed(desk.scanId, 'Sign written', signed(transcription, at, name, desk.nextMm(at.alongMm, glyph)));
}

/** A text in Leiden signs from elsewhere; what is not understood is said. */
export function paste(desk: Desk, text: string): void {
  const { transcription, pen } = now(desk);
  try {
    transcribed(
      desk.scanId,
      'Text put in',
      pasted(transcription, pen, text, (mm) => desk.nextMm(mm)),
    );
  } catch (error) {
    notify(error instanceof Error ? error.message : String(error));
  }
}

/** One key on the strip; false where it means nothing there. */
export function typed(desk: Desk, key: string, shift: boolean): boolean {
  const special = stateKeys.find((one) => one.key === key);
  if (special) special.run(desk);
  else if (key === 'Backspace' || key === 'Delete') erase(desk, key === 'Delete');
  else if (key === 'ArrowLeft' || key === 'ArrowRight') movePen(desk, key === 'ArrowLeft' ? -1 : 1, shift);
  else if (key === 'Home' || key === 'End') toEnd(desk, key === 'End');
  else return write(desk, key);
  return true;
}

function write(desk: Desk, key: string): boolean {
  const { transcription, pen } = now(desk);
  const at = standing(desk, transcription.items, pen, signs[signKeys[key]]?.glyph ?? key.toUpperCase());
  const done = written(transcription, at, key, desk.nextMm(at.alongMm, key.toUpperCase()));
  if (done) transcribed(desk.scanId, key === ' ' ? 'Space' : 'Letter written', done);
  return done !== null;
}

/** The pen where this letter is likely to stand, unless the hand has set it. */
function standing(desk: Desk, items: readonly Item[], pen: Pen, text: string): Pen {
  const before = pen.auto && standsBefore(items, desk.ring, pen.at, desk.advanceMm);
  return before ? { ...pen, alongMm: desk.placeMm(before.mm, before.text, text, before.spaced) } : pen;
}

function erase(desk: Desk, behind: boolean): void {
  const { transcription, pen } = now(desk);
  transcribed(desk.scanId, 'Letter taken away', erased(transcription, pen, desk.ring, behind));
}

/** Arrow keys go from letter to letter; with Shift the pen moves along the strip by itself. */
function movePen(desk: Desk, by: -1 | 1, alone: boolean): void {
  const { transcription, pen } = now(desk);
  const next: Pen = alone
    ? { ...pen, alongMm: Math.max(0, Math.round((pen.alongMm + by * 0.2) * 100) / 100) }
    : penMoved(transcription.items, desk.ring, pen, by, desk.advanceMm);
  setRead({ pen: next });
}

function toEnd(desk: Desk, end: boolean): void {
  const { transcription, pen } = now(desk);
  const [from, to] = ringSpan(transcription.items, desk.ring);
  const at = end ? to : from;
  const near = transcription.items.slice(from, to).filter((item) => 'alongMm' in item && item.alongMm !== undefined);
  const item = end ? near.at(-1) : near[0];
  const alongMm = item && 'alongMm' in item ? (item.alongMm ?? 0) + (end ? desk.advanceMm : 0) : pen.alongMm;
  setRead({ pen: { at, alongMm } });
}
