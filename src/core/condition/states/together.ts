import type { FoundMark } from '../marks/index.ts';
import { type WearMap, wearLabel } from '../wear/labels.ts';

/** What one subject's comparison with the common reference gave. */
export interface SubjectFindings {
  readonly name: string;
  /** False where no fit was found: the subject then says nothing. */
  readonly fitted: boolean;
  readonly marks: readonly FoundMark[];
  readonly wearMap: WearMap;
}

/** On one subject: shown, not shown although it could be, or not to be judged. */
export type Seen = 'present' | 'absent' | 'cannotJudge';

/** One mark over all subjects. */
export interface SharedMark {
  readonly id: string;
  readonly shape: FoundMark['shape'];
  readonly at: FoundMark['at'];
  readonly raised: boolean;
  readonly onReference: boolean;
  /** In the order of the subjects. */
  readonly seen: readonly Seen[];
  /** Outline in the reference's face frame, x, y pairs, mm. */
  readonly outline: Float64Array;
}

/** What several subjects say together about one reference. Subjects by their place in the list. */
export interface Together {
  readonly marks: readonly SharedMark[];
  readonly order: ReadonlyArray<{
    readonly earlier: number;
    readonly later: number;
    readonly marks: readonly string[];
  }>;
  /** The same against the reference. */
  readonly againstReference: ReadonlyArray<{
    readonly subject: number;
    readonly subjectIs: 'earlier' | 'later';
    readonly marks: readonly string[];
  }>;
  readonly contradictions: ReadonlyArray<{
    readonly subjects: readonly number[];
    readonly marks: readonly string[];
    readonly words: string;
  }>;
  readonly sharedAccidents: ReadonlyArray<{
    readonly subjects: readonly number[];
    readonly mark: string;
    readonly words: string;
  }>;
  readonly composite: ReadonlyArray<{ readonly subject: number; readonly fraction: number }>;
}

export const togetherDefaults = {
  /** Two marks of different comparisons are one when their middles lie within this, mm, or within half their extent. */
  nearMm: 1.2,
  /** Marks of the die's state: smaller ones order nothing, mm³. */
  leastVolumeMm3: 0.3,
};

/**
 * Marks × subjects over one reference, and what follows from it. A raised mark of the die that one object has and another
 * lacks where it could show it makes the first the later; where marks order two objects both ways, neither is said.
 * Sunk marks are accidents of the wax: subjects that share one descend from one impression. The composite takes every
 * place from the subject that is soundest there. Dates are no input.
 */
export function together(subjects: readonly SubjectFindings[], options = togetherDefaults): Together {
  const marks = shareMarks(subjects, options);
  const telling = marks.filter(
    ({ raised, volumeMm3, shape, onReference }) =>
      raised &&
      volumeMm3 >= options.leastVolumeMm3 &&
      diesOwn.has(shape) &&
      // Letters lower than the reference's may have been clogged when they were made.
      !(shape === 'recut' && onReference),
  );
  const pairs = orderPairs(telling, subjects);
  return {
    marks: marks.map(({ volumeMm3: _, ...mark }) => mark),
    order: pairs.flatMap(({ one, two, onlyOne, onlyTwo }) => {
      if (one === null || onlyOne.length > 0 === onlyTwo.length > 0) return [];
      const [earlier, later] = onlyOne.length > 0 ? [two, one] : [one, two];
      return [{ earlier, later, marks: [...onlyOne, ...onlyTwo] }];
    }),
    againstReference: pairs.flatMap(({ one, two, onlyOne, onlyTwo }) => {
      if (one !== null || onlyOne.length > 0 === onlyTwo.length > 0) return [];
      const subjectIs = onlyOne.length > 0 ? ('earlier' as const) : ('later' as const);
      return [{ subject: two, subjectIs, marks: [...onlyOne, ...onlyTwo] }];
    }),
    contradictions: pairs
      .filter(({ onlyOne, onlyTwo }) => onlyOne.length > 0 && onlyTwo.length > 0)
      .map(({ one, two, onlyOne, onlyTwo }) => ({
        subjects: one === null ? [two] : [one, two],
        marks: [...onlyOne, ...onlyTwo],
        words: `${nameOf(subjects, one)} shows ${onlyOne.join(', ')} without ${onlyTwo.join(', ')}, and ${nameOf(subjects, two)} the reverse: two dies, a mended die, or a mark misread.`,
      })),
    sharedAccidents: sharedAccidents(marks, subjects),
    composite: composite(subjects),
  };
}

const diesOwn = new Set<FoundMark['shape']>(['cut', 'crack', 'scratch', 'line', 'recut', 'region']);

const nameOf = (subjects: readonly SubjectFindings[], k: number | null): string =>
  k === null ? 'The reference' : subjects[k].name;

type Sized = SharedMark & { readonly volumeMm3: number };

/** One entry for every place and polarity, whichever comparisons found it. */
function shareMarks(subjects: readonly SubjectFindings[], options: typeof togetherDefaults): Sized[] {
  const groups: { first: FoundMark; from: Map<number, FoundMark> }[] = [];
  subjects.forEach(({ marks, fitted }, k) => {
    for (const mark of fitted ? marks : []) {
      const group = groups.find(({ first }) => first.raised === mark.raised && samePlace(first, mark, options));
      if (group) group.from.set(k, mark);
      else groups.push({ first: mark, from: new Map([[k, mark]]) });
    }
  });
  return groups.map(({ first, from }, k) => {
    const onReference = [...from.values()].some(({ carriedBy }) => carriedBy !== 'subject');
    const { shape, at, raised, outline, volumeMm3 } = first;
    const seen = subjects.map((subject, j) => seenOn(subject, from.get(j), first, onReference));
    return { id: `T${k + 1}`, shape, at, raised, onReference, seen, outline, volumeMm3 };
  });
}

function seenOn(subject: SubjectFindings, own: FoundMark | undefined, first: FoundMark, onReference: boolean): Seen {
  if (!subject.fitted) return 'cannotJudge';
  if (own) {
    if (own.carriedBy !== 'reference') return 'present';
    return own.otherIsSound ? 'absent' : 'cannotJudge';
  }
  // No difference was found there: the subject is as the reference is, if it could show the mark at all.
  if (!soundAt(subject.wearMap, first.outline)) return 'cannotJudge';
  return onReference ? 'present' : 'absent';
}

/** Whether most of an outline's corners and its middle lie on sound ground of a subject. */
function soundAt(map: WearMap, outline: Float64Array): boolean {
  const sound = wearLabel('sharp');
  const places: [number, number][] = [middle(outline)];
  for (let i = 0; i < outline.length; i += 2) places.push([outline[i], outline[i + 1]]);
  const good = places.filter(([x, y]) => labelAt(map, map.turned ? -x : x, y) === sound).length;
  return good > 0.6 * places.length;
}

/** Label at a place of the impression's sense, mm; 0 outside. */
function labelAt({ width, height, pitch, left, top, labels }: WearMap, x: number, y: number): number {
  const col = Math.round((x - left) / pitch);
  const row = Math.round((top - y) / pitch);
  return col >= 0 && row >= 0 && col < width && row < height ? labels[row * width + col] : 0;
}

function samePlace(a: FoundMark, b: FoundMark, { nearMm }: typeof togetherDefaults): boolean {
  const [ax, ay] = middle(a.outline);
  const [bx, by] = middle(b.outline);
  const extent = Math.min(extentOf(a.outline), extentOf(b.outline));
  return Math.hypot(ax - bx, ay - by) < Math.max(nearMm, extent / 2);
}

function middle(outline: Float64Array): [number, number] {
  let [x, y] = [0, 0];
  for (let i = 0; i < outline.length; i += 2) {
    x += outline[i];
    y += outline[i + 1];
  }
  const n = Math.max(1, outline.length / 2);
  return [x / n, y / n];
}

function extentOf(outline: Float64Array): number {
  const [x, y] = middle(outline);
  let most = 0;
  for (let i = 0; i < outline.length; i += 2) most = Math.max(most, Math.hypot(outline[i] - x, outline[i + 1] - y));
  return most;
}

/** For every two objects the marks that only one of them has; `one` null stands for the reference. */
function orderPairs(marks: readonly Sized[], subjects: readonly SubjectFindings[]) {
  const seen = (mark: Sized, k: number | null): Seen =>
    k === null ? (mark.onReference ? 'present' : 'absent') : mark.seen[k];
  const only = (a: number | null, b: number | null): string[] =>
    marks.filter((mark) => seen(mark, a) === 'present' && seen(mark, b) === 'absent').map(({ id }) => id);
  const pairs: { one: number | null; two: number; onlyOne: string[]; onlyTwo: string[] }[] = [];
  for (let two = 0; two < subjects.length; two++)
    for (const one of [null, ...Array.from({ length: two }, (_, k) => k)])
      pairs.push({ one, two, onlyOne: only(one, two), onlyTwo: only(two, one) });
  return pairs;
}

function sharedAccidents(marks: readonly Sized[], subjects: readonly SubjectFindings[]): Together['sharedAccidents'] {
  return marks.flatMap((mark) => {
    const on = subjects.map((_, k) => k).filter((k) => mark.seen[k] === 'present');
    if (mark.raised || mark.onReference || on.length < 2) return [];
    const names = on.map((k) => subjects[k].name).join(', ');
    return [
      {
        subjects: on,
        mark: mark.id,
        words: `${names} share ${mark.id}, sunk, which the reference lacks: an accident of wax that several carry comes from one impression.`,
      },
    ];
  });
}

/** Share of the first fitted subject's map that each subject would give to a composite. */
function composite(subjects: readonly SubjectFindings[]): Together['composite'] {
  const base = subjects.find(({ fitted }) => fitted)?.wearMap;
  if (!base) return subjects.map((_, subject) => ({ subject, fraction: 0 }));
  const count = new Float64Array(subjects.length);
  let all = 0;
  for (let row = 0; row < base.height; row++)
    for (let col = 0; col < base.width; col++) {
      if (!base.labels[row * base.width + col]) continue;
      all++;
      const [x, y] = [base.left + col * base.pitch, base.top - row * base.pitch];
      const ranks = subjects.map(({ fitted, wearMap }) => (fitted ? rank(labelAt(wearMap, x, y)) : 0));
      const best = ranks.indexOf(Math.max(...ranks));
      if (ranks[best] > 0) count[best]++;
    }
  return subjects.map((_, subject) => ({ subject, fraction: all > 0 ? count[subject] / all : 0 }));
}

/** How good a surface with this label is for reading: sound, soft or worn, none. */
function rank(label: number): number {
  if (label === wearLabel('sharp')) return 3;
  if (label === 0 || label === wearLabel('lost') || label === wearLabel('cannotJudge')) return 0;
  return label === wearLabel('added') ? 1 : 2;
}
