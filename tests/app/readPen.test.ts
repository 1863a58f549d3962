import { describe, expect, it } from 'vitest';
import {
  counted,
  erased,
  expandedAt,
  missed,
  moved,
  type Penned,
  pasted,
  penAt,
  penMoved,
  penWithin,
  replacedPlaces,
  ringSpan,
  solved,
  standsBefore,
  stated,
  turned,
  withRing,
  wordBefore,
  written,
} from '../../src/app/read/state/pen.ts';
import { withSource } from '../../src/app/read/state/sources.ts';
import {
  emptyTranscription,
  expanded,
  fromTei,
  type Item,
  leidenText,
  seededTypist,
  suggestionsFor,
  toTei,
  validateTranscription,
} from './typist.ts';

/** Types a text key by key, each letter two millimetres on. */
function type(text: string, from: Penned = { transcription: emptyTranscription, pen: { at: 0, alongMm: 1 } }): Penned {
  let now = from;
  for (const key of text) {
    const done = written(now.transcription, now.pen, key, now.pen.alongMm + 2);
    expect(done, key).not.toBeNull();
    if (done) now = done;
  }
  return now;
}

describe('typing along the strip', () => {
  it('puts capitals, signs, spaces and marks where the pen stands', () => {
    const { transcription, pen } = type("+s' ric");
    expect(leidenText(transcription.items)).toBe("✠S' RIC");
    expect(transcription.items.map((item) => ('alongMm' in item ? item.alongMm : null))).toEqual([
      1,
      3,
      5,
      null,
      5,
      7,
      9,
    ]);
    expect(pen).toEqual({ at: 7, alongMm: 11, auto: true });
    expect(validateTranscription(transcription)).toEqual([]);
  });

  it('writes nothing for keys that are no letters', () => {
    for (const key of ['Shift', 'F5', 'ArrowLeft', '[', '|', '\t', '/', '#', '“'])
      expect(written(emptyTranscription, { at: 0, alongMm: 0 }, key, 1)).toBeNull();
  });

  it('inserts in the middle without touching the rest', () => {
    const before = type('SGILL').transcription;
    const { transcription, pen } = written(before, { at: 1, alongMm: 2 }, 'i', 4) as Penned;
    expect(leidenText(transcription.items)).toBe('SIGILL');
    expect(pen.at).toBe(2);
    expect(transcription.items.slice(2)).toEqual(before.items.slice(1));
  });
});

describe('the state of a letter', () => {
  const conjecture = { from: 'conjecture' } as const;

  it('is one and never two, and comes back to clear', () => {
    const { transcription } = type('AB');
    const doubtful = stated(transcription, 2, 'doubtful', conjecture);
    expect(leidenText(doubtful.items)).toBe('AB\u0323');
    const supplied = stated(doubtful, 2, 'supplied', conjecture);
    expect(leidenText(supplied.items)).toBe('A[B]¹');
    expect(validateTranscription(supplied)).toEqual([]);
    expect(stated(supplied, 2, 'supplied', conjecture)).toEqual(transcription);
  });

  it('names a source where it is supplied', () => {
    const typed = type('AB').transcription;
    const { transcription, from } = withSource(typed, 'witness', 'Cast in the chapter house');
    const again = withSource(transcription, 'witness', 'Cast in the chapter house');
    expect(again.transcription).toBe(transcription);
    const supplied = stated(transcription, 1, 'supplied', from);
    expect(validateTranscription(supplied)).toEqual([]);
    expect(fromTei(toTei(supplied))).toEqual(supplied);
    const person = withSource(supplied, 'person', 'A. Reader');
    expect(person.from).toEqual({ from: 'conjecture', id: 'P1' });
    expect(validateTranscription(stated(person.transcription, 2, 'supplied', person.from))).toEqual([]);
  });

  it('turns ligature and reversal on and off, of letters only', () => {
    const typed = type('A+').transcription;
    expect(turned(typed, 2, 'reversed')).toBe(typed);
    const reversed = turned(typed, 1, 'reversed');
    expect(reversed.items[0]).toMatchObject({ reversed: true });
    expect(turned(reversed, 1, 'reversed')).toEqual(typed);
  });
});

describe('missing letters', () => {
  it('are counted together, one key a letter, and taken away one by one', () => {
    let now: Penned = type('A');
    for (let k = 0; k < 3; k++) now = missed(now.transcription, now.pen, 'lost', now.pen.alongMm + 2);
    expect(leidenText(now.transcription.items)).toBe('A[...]');
    expect(now.pen).toEqual({ at: 2, alongMm: 9, auto: true });
    const back = erased(now.transcription, now.pen, 0);
    expect(leidenText(back.transcription.items)).toBe('A[..]');
    expect(leidenText(counted(now.transcription, 2, 'about').items)).toBe('A[c. 3]');
    expect(leidenText(counted(now.transcription, 2, 'unknown').items)).toBe('A[---]');
    expect(counted(counted(now.transcription, 2, 'about'), 2, 'exact')).toEqual(now.transcription);
  });
});

describe('abbreviations', () => {
  it('are solved, solved otherwise, left unsolved and taken back', () => {
    const typed = type("S'");
    const solvedOnce = expandedAt(typed.transcription, typed.pen, 'igillum');
    expect(leidenText(solvedOnce.transcription.items)).toBe("S'(igillum)");
    const other = expandedAt(solvedOnce.transcription, solvedOnce.pen, 'ecretum');
    expect(leidenText(other.transcription.items)).toBe("S'(ecretum)");
    const unsolved = expandedAt(other.transcription, other.pen, null);
    expect(leidenText(unsolved.transcription.items)).toBe("S'(---)");
    const gone = expandedAt(unsolved.transcription, unsolved.pen, '');
    expect(gone.transcription).toEqual(typed.transcription);
    expect(gone.pen.at).toBe(2);
  });

  it('take what is suggested, letters keeping their place and state', () => {
    for (const [word, wanted] of [
      ["S'", "S'(igillum)"],
      ['DNI', 'D(omi)NI'],
      ['EPI', 'EP(iscop)I'],
    ]) {
      const typed = type(`A ${word}`);
      const doubtful = { ...typed, transcription: stated(typed.transcription, 3, 'doubtful', { from: 'conjecture' }) };
      const [from, to] = wordBefore(doubtful.transcription.items, doubtful.pen.at);
      const [suggestion] = suggestionsFor(doubtful.transcription.items.slice(from, to));
      const done = solved(doubtful.transcription, doubtful.pen, suggestion);
      expect(leidenText(done.transcription.items).replace('\u0323', '')).toBe(`A ${wanted}`);
      expect(validateTranscription(done.transcription)).toEqual([]);
      expect(done.transcription.items.filter((item) => item.kind !== 'expansion')).toEqual(
        doubtful.transcription.items,
      );
      expect(done.pen.at).toBe(done.transcription.items.length);
    }
  });
});

describe('what stands before the pen', () => {
  it('is the last item with a place, over spaces and expansions', () => {
    const typed = type("S'");
    const { transcription, pen } = type(' ', expandedAt(typed.transcription, typed.pen, 'igillum'));
    expect(standsBefore(transcription.items, 0, pen.at, 2)).toEqual({ mm: 1, text: 'S', spaced: true });
    expect(standsBefore(transcription.items, 0, 0, 2)).toBeNull();
    const gap = missed(transcription, { at: 4, alongMm: 5 }, 'lost', 7);
    const two = missed(gap.transcription, gap.pen, 'lost', 9);
    expect(standsBefore(two.transcription.items, 0, two.pen.at, 2)).toEqual({ mm: 7, text: 'E', spaced: false });
  });

  it('is put in from a text in Leiden signs, letters one after another', () => {
    const { transcription, pen } = pasted(
      emptyTranscription,
      { at: 0, alongMm: 1 },
      ' +S(igillum)  [..]A\u0323 ',
      (mm) => mm + 2,
    );
    expect(leidenText(transcription.items)).toBe('✠S(igillum) [..]A\u0323');
    expect(transcription.items.flatMap((item) => ('alongMm' in item ? [item.alongMm] : []))).toEqual([1, 3, 5, 9]);
    expect(pen).toEqual({ at: 6, alongMm: 11 });
    expect(() => pasted(emptyTranscription, { at: 0, alongMm: 0 }, 'A[B', (mm) => mm)).toThrow(RangeError);
  });
});

describe('rings', () => {
  const two: readonly Item[] = [...type('AB').transcription.items, { kind: 'line' }, ...type('CD').transcription.items];

  it('are parted by breaks', () => {
    expect(ringSpan(two, 0)).toEqual([0, 2]);
    expect(ringSpan(two, 1)).toEqual([3, 5]);
    expect(ringSpan(two, 2)).toEqual([5, 5]);
    expect(withRing(two, 1)).toBe(two);
    expect(ringSpan(withRing(two, 2), 2)).toEqual([6, 6]);
  });

  it('keep the pen to themselves', () => {
    expect(penWithin(two, 1, { at: 0, alongMm: 4 })).toEqual({ at: 3, alongMm: 4 });
    expect(penWithin([], 0, { at: 7, alongMm: 4 }).at).toBe(0);
    expect(penAt(two, 1, 2).at).toBe(4);
    expect(penMoved(two, 0, { at: 2, alongMm: 5 }, 1, 2)).toEqual({ at: 2, alongMm: 7 });
    expect(erased({ ...emptyTranscription, items: [...two] }, { at: 3, alongMm: 1 }, 1).transcription.items).toEqual(
      two,
    );
  });

  it('have their places taken to another start on their own', () => {
    const shifted = replacedPlaces(two, 1, (mm) => mm + 10);
    expect(shifted.slice(0, 3)).toEqual(two.slice(0, 3));
    expect(shifted.slice(3).map((item) => 'alongMm' in item && item.alongMm)).toEqual([11, 13]);
    expect(replacedPlaces(shifted, 1, (mm) => mm - 10)).toEqual(two);
  });
});

describe('whatever is typed and struck out', () => {
  it('stays a transcription that can be printed, and erasing undoes writing', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const { transcription, pen } = seededTypist(seed, 60);
      const structural = validateTranscription(transcription).filter(({ code }) => /shape|source/i.test(code));
      expect(structural, `seed ${seed}`).toEqual([]);
      expect(pen.at).toBeGreaterThanOrEqual(0);
      expect(pen.at).toBeLessThanOrEqual(transcription.items.length);
      const more = written(transcription, pen, 'x', pen.alongMm + 2) as Penned;
      expect(erased(more.transcription, more.pen, 0).transcription.items, `seed ${seed}`).toEqual(transcription.items);
      expect(expanded(transcription)).toBe(expanded(transcription).toLowerCase());
    }
  });

  it('moves letters only', () => {
    const typed = type('A B').transcription;
    expect(moved(typed, 1, 9)).toBe(typed);
    expect(moved(typed, 2, 9.123).items[2]).toMatchObject({ alongMm: 9.12 });
  });
});
