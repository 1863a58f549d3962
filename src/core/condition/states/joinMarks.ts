import type { FoundMark } from '../marks/index.ts';
import type { Seen, StateReading } from '../types.ts';
import { type WearMap, wearLabel } from '../wear/labels.ts';
import { onSubject } from './state.ts';

/** What one subject's comparison with the common reference gave. */
export interface SubjectFindings {
  readonly name: string;
  /** False where the pair has no part in the marks: no fit, two matrices, or another face of the reference. */
  readonly fitted: boolean;
  readonly marks: readonly FoundMark[];
  /** Ids of those marks that tell of the matrix's state (`tellingMarks`). */
  readonly telling: readonly string[];
  /** The pair's own reading, as its record has it. */
  readonly state: StateReading;
  readonly wearMap: WearMap;
}

/** One mark over all subjects. */
export interface SharedMark {
  readonly id: string;
  readonly shape: FoundMark['shape'];
  readonly at: FoundMark['at'];
  readonly raised: boolean;
  readonly onReference: boolean;
  /** Whether it tells of the matrix's state in at least one of the pairs; the others order nothing. */
  readonly tells: boolean;
  /** In the order of the subjects. Of a telling mark: as far as the telling findings say. */
  readonly seen: readonly Seen[];
  /** Outline in the reference's face frame, x, y pairs, mm. */
  readonly outline: Float64Array;
}

/** A shared mark, with the id that each subject's own record gives it. */
export interface JoinedMark extends SharedMark {
  readonly ownIds: ReadonlyMap<number, string>;
}

export const joinDefaults = {
  /** Two marks of different comparisons are one when their middles lie within this, mm, or within half of how far the smaller reaches. */
  nearMm: 1.2,
  /** Share of a mark's corners that must lie on sound ground before it is missed there. */
  leastSoundCorners: 0.6,
};

type JoinOptions = typeof joinDefaults;

interface Group {
  readonly first: FoundMark;
  readonly from: Map<number, FoundMark>;
}

/** One entry for every place and polarity, whichever comparisons found it; of one subject an entry holds one mark at most. */
export function joinMarks(subjects: readonly SubjectFindings[], options: JoinOptions = joinDefaults): JoinedMark[] {
  const groups: Group[] = [];
  subjects.forEach(({ marks, fitted }, k) => {
    for (const mark of fitted ? marks : []) {
      const group = groups.find(({ first, from }) => !from.has(k) && isOneMark(first, mark, options));
      if (group) group.from.set(k, mark);
      else groups.push({ first: mark, from: new Map([[k, mark]]) });
    }
  });
  return groups.map((group, k) => joined(group, `T${k + 1}`, subjects, options));
}

function joined(group: Group, id: string, subjects: readonly SubjectFindings[], options: JoinOptions): JoinedMark {
  const borneOut = isBorneOut([...group.from.values()]);
  const tells = borneOut || [...group.from].some(([k, mark]) => subjects[k].telling.includes(mark.id));
  // Where a mark tells of the state in one pair, a finding of it in another that does not tell may be a stroke or dirt;
  // a line that runs through the design as no stroke does is neither, nor is it where others bear it out.
  const alike = [...group.from].filter(
    ([k, mark]) => mark.crosses || subjects[k].telling.includes(mark.id) || (borneOut && isMissing(mark)),
  );
  const counted = new Map(tells ? alike : group.from);
  const found = [...counted.values()];
  const onReference = found.some(({ carriedBy }) => carriedBy !== 'subject');
  const disputed = onReference && found.some(({ carriedBy }) => carriedBy === 'subject');
  const [{ shape, at, raised, outline }] = found;
  const seenOn = (subject: SubjectFindings, k: number): Seen => {
    const own = counted.get(k);
    if (own) return onSubject(own);
    if (!subject.fitted || disputed || showsOtherwise(subject, group, options)) return 'cannotJudge';
    // No difference was found there: the subject is as the reference is, if it could show the mark at all.
    if (!soundAt(subject.wearMap, outline, options)) return 'cannotJudge';
    return onReference ? 'present' : 'absent';
  };
  const ownIds = new Map([...group.from].map(([k, mark]) => [k, mark.id]));
  return { id, shape, at, raised, onReference, tells, seen: subjects.map(seenOn), outline, ownIds };
}

/**
 * A raised line that the reference shares with one subject, where it runs through the design as no stroke does, and that another
 * lacks on sound ground: what a pair alone would leave open, since a short line may be a stroke out of place, two witnesses settle.
 */
const isBorneOut = (marks: readonly FoundMark[]): boolean =>
  marks.some(({ carriedBy, raised, crosses }) => carriedBy === 'both' && raised && crosses) && marks.some(isMissing);

const isMissing = ({ carriedBy, raised, otherIsSound }: FoundMark): boolean =>
  carriedBy === 'reference' && raised && otherIsSound;

/** Whether a subject has a mark of its own at the group's place, counted there or not. */
const showsOtherwise = ({ marks }: SubjectFindings, { first }: Group, options: JoinOptions): boolean =>
  marks.some((mark) => isOneMark(first, mark, options));

const isOneMark = (a: FoundMark, b: FoundMark, options: JoinOptions): boolean =>
  a.raised === b.raised && samePlace(a, b, options);

/** Whether most of an outline's corners and its middle lie on sound ground of a subject. */
function soundAt(map: WearMap, outline: Float64Array, { leastSoundCorners }: JoinOptions): boolean {
  const sound = wearLabel('sharp');
  const places: [number, number][] = [middle(outline)];
  for (let i = 0; i < outline.length; i += 2) places.push([outline[i], outline[i + 1]]);
  const good = places.filter(([x, y]) => labelAt(map, map.turned ? -x : x, y) === sound).length;
  return good > leastSoundCorners * places.length;
}

/** Label at a place of the impression's sense, mm; 0 outside. */
export function labelAt({ width, height, pitch, left, top, labels }: WearMap, x: number, y: number): number {
  const col = Math.round((x - left) / pitch);
  const row = Math.round((top - y) / pitch);
  return col >= 0 && row >= 0 && col < width && row < height ? labels[row * width + col] : 0;
}

function samePlace(a: FoundMark, b: FoundMark, { nearMm }: JoinOptions): boolean {
  const [ax, ay] = middle(a.outline);
  const [bx, by] = middle(b.outline);
  const reach = Math.min(reachOf(a.outline), reachOf(b.outline));
  return Math.hypot(ax - bx, ay - by) < Math.max(nearMm, reach / 2);
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

/** Farthest corner from the middle, mm. */
function reachOf(outline: Float64Array): number {
  const [x, y] = middle(outline);
  let most = 0;
  for (let i = 0; i < outline.length; i += 2) most = Math.max(most, Math.hypot(outline[i] - x, outline[i + 1] - y));
  return most;
}
