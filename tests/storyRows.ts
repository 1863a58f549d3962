import type { SampleStory } from '../sample-scans/generator/samples/index.ts';
import type { Mark, Together } from '../src/core/condition/index.ts';
import { chosenModel, faceMotion } from '../src/core/fit/index.ts';
import { apply, invert } from '../src/core/geometry/index.ts';
import type { Comparison } from '../src/core/pipeline.ts';

/** One thing that happened, and whether the program says so. */
export interface StoryRow {
  readonly id: string;
  readonly told: boolean;
  /** What the program says instead, for the reader. */
  readonly said: string;
}

/** How far a mark's middle may lie from the true one's way, mm: the face's centre is found, not given. */
const nearMm = 2.5;

/**
 * The story with its marks where a positive's face as found shows them: nobody says which way up a round impression is, so that face may
 * lie turned against the matrix's. `onMatrix`: its comparison with the matrix, which is a negative.
 */
export function storyOnSubject(story: SampleStory, { reference, subject, fit }: Comparison): SampleStory {
  const found = invert(faceMotion(reference.face, subject.face, chosenModel(fit)));
  const moved = ([x, y]: readonly [number, number]): [number, number] => {
    const [u, v] = apply(found, [-x, y, 0]);
    return [u, v];
  };
  return { ...story, marks: story.marks.map((mark) => ({ ...mark, way: mark.way.map(moved) })) };
}

type StoryObject = SampleStory['objects'][number];

/** The name of a file without what all share. */
export const shortOf = (file: string): string => file.replace(/^averholt-|\.glb$/g, '');

/** Rows of one pair of objects of the priory's matrix: the order of their states, and every mark that either shows. */
export function pairRows(
  story: SampleStory,
  reference: string,
  subject: string,
  { judgement }: Comparison,
): StoryRow[] {
  const [a, b] = [objectOf(story, reference), objectOf(story, subject)];
  const pair = `${shortOf(reference)} × ${shortOf(subject)}`;
  const { reading, reason } = judgement.state;
  const right = a.state === b.state ? 'sameState' : b.state < a.state ? 'subjectEarlier' : 'subjectLater';
  return [
    { id: `${pair}: ${right}`, told: reading === right, said: `${reading}, ${reason.code}` },
    ...story.marks
      .filter(({ id }) => a.marks.includes(id) || b.marks.includes(id))
      .map((mark) => markRow(mark, pair, carrierOf(mark.id, a, b), judgement.damage)),
    noOtherRow(story, pair, judgement),
  ];
}

function objectOf(story: SampleStory, file: string): StoryObject {
  const found = story.objects.find((each) => each.file === file);
  if (!found) throw new RangeError(`${file} is no object of the story.`);
  return found;
}

const carrierOf = (id: string, a: StoryObject, b: StoryObject): Mark['carriedBy'] =>
  a.marks.includes(id) ? (b.marks.includes(id) ? 'both' : 'reference') : 'subject';

/** The mark is listed at its place, as what it is, on whichever carries it. */
function markRow(
  mark: SampleStory['marks'][number],
  pair: string,
  carriedBy: Mark['carriedBy'],
  damage: readonly Mark[],
): StoryRow {
  const there = damage.filter((found) => liesOn(found, mark));
  return {
    id: `${pair}: ${mark.id} on ${carriedBy}`,
    // One cut is one mark: told in pieces the first sentence would name it as often.
    told: there.filter((found) => found.shape === mark.shape && found.carriedBy === carriedBy).length === 1,
    said: there.map((found) => `${found.shape} on ${found.carriedBy}`).join(', ') || 'not listed',
  };
}

/** No mark that tells of the matrix's state is claimed where the story has none. */
function noOtherRow(story: SampleStory, pair: string, { surfaces, damage }: Comparison['judgement']): StoryRow {
  const invented = damage.filter(
    (found) => surfaces?.telling.includes(found.id) && !story.marks.some((mark) => liesOn(found, mark)),
  );
  return {
    id: `${pair}: no other mark of the matrix`,
    told: invented.length === 0,
    said: invented
      .map(({ id, shape, carriedBy, at }) => `${id} ${shape} on ${carriedBy}, ${at.hour} o’clock`)
      .join('; '),
  };
}

function liesOn({ at }: Mark, { way }: SampleStory['marks'][number]): boolean {
  const [x, y] = [at.radiusMm * Math.sin((at.deg * Math.PI) / 180), at.radiusMm * Math.cos((at.deg * Math.PI) / 180)];
  return way.some(([wx, wy]) => Math.hypot(x - wx, y - wy) < nearMm);
}

/** The order of every two subjects that were joined: told where `together` has it, and where it has none for one state. */
export function orderRows(story: SampleStory, files: readonly string[], joined: Together): StoryRow[] {
  return files.flatMap((file, later) =>
    files.slice(0, later).map((other, k): StoryRow => {
      const [one, two] = [objectOf(story, other).state, objectOf(story, file).state];
      const found = joined.order.find(
        ({ earlier: e, later: l }) => (e === k && l === later) || (e === later && l === k),
      );
      const said = found ? (found.earlier === k ? 'earlier' : 'later') : 'no order';
      const right = one === two ? 'no order' : one < two ? 'earlier' : 'later';
      return { id: `joined: ${shortOf(other)} and ${shortOf(file)}: ${right}`, told: said === right, said };
    }),
  );
}

/** No true part of the story may be called a contradiction. */
export const contradictionRow = ({ contradictions }: Together): StoryRow => ({
  id: 'joined: nothing contradicts',
  told: contradictions.length === 0,
  said: contradictions.map((each) => JSON.stringify(each)).join('; '),
});

/** A break and what was cast after it: the share of the face that is gone, as the record says, to a third of the true one. */
export function lossRow(share: number, file: string, { judgement }: Comparison): StoryRow {
  const lost = judgement.wear.gone;
  return {
    id: `${shortOf(file)}: a piece of ${Math.round(100 * share)} % lost`,
    told: Math.abs(lost - share) < share / 3,
    said: `${(100 * lost).toFixed(1)} % gone`,
  };
}

/** What was copied from what: told where the judgement says the descent. */
export function descentRow(copy: string, of: string, { judgement }: Comparison): StoryRow {
  const descent = judgement.descent ?? 'nothing said of descent';
  return {
    id: `${shortOf(copy)}: made from ${shortOf(of)}`,
    told: descent === 'subjectFromReference' || descent === 'oneDescent',
    said: descent,
  };
}
