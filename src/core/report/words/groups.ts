import type { GroupRecord, Member, Named } from '../record/groupRecord.ts';

type Group = GroupRecord['groups'][number];
type Decision = Group['decisions'][number];

/** An object by its shelfmark, with the seal and side where several hang on one document. */
export const objectLabel = ({ shelfmark, seal, side }: Pick<Named, 'shelfmark' | 'seal' | 'side'>): string =>
  [shelfmark, seal && `seal ${seal}`, side].filter(Boolean).join(', ');

const count = (n: number, of: string): string => `${n} ${of}${n === 1 ? '' : 's'}`;

/** How many groups there are, on how many pairs they rest, and what may be false among them. */
export const groupingSummary = ({ groups, single, compared, expectedFalseMerges }: GroupRecord): string =>
  `${count(groups.length, 'group')}, ${count(single.length, 'object')} in none; ${count(compared, 'pair')} verified; false merges to be expected in the whole collection, copies by hand within 60 µm aside: at most ${expectedFalseMerges.toPrecision(2)}`;

export const groupTitle = ({ id, name }: Pick<Group, 'id' | 'name'>): string => name ?? id;

/** How firmly a group is tied, and by which pair least. */
export function tieWords({ strength, weakest }: Pick<Group, 'strength' | 'weakest'>): string {
  const tie = weakest
    ? `weakest tie ${objectLabel(weakest.a)} and ${objectLabel(weakest.b)} (score ${weakest.score.toFixed(1)})`
    : 'tied by what is stated or decided alone';
  return `${strength ?? 'stated'}, ${tie}`;
}

/** Empty where it is not known. */
export const imageLeftWords = ({ imageLeft }: Pick<Member, 'imageLeft'>): string =>
  imageLeft === null ? '' : `${Math.round(100 * imageLeft)} % of the image`;

export const possibleMemberWords = (one: Group['possibleMembers'][number]): string =>
  `possible member, a fragment: ${objectLabel(one)}, by ${objectLabel(one.with)} (score ${one.score.toFixed(1)})`;

/** What is said of a group beside its members: descent, states, what speaks against it, decisions by hand. */
export function groupNotes(group: Group): string[] {
  return [
    ...group.descent.map(descentWords),
    ...group.states.map(stateWords),
    ...group.stateContradictions.map((set) => `states contradict one another: ${set.map(objectLabel).join('; ')}`),
    ...group.against.map(
      ({ a, b, finding, score }) =>
        `against it, outweighed: ${objectLabel(a)} and ${objectLabel(b)}: ${pairWords({ finding, score })}`,
    ),
    ...group.decisions.map(decisionWords),
  ];
}

const findingNames: Readonly<Record<string, string>> = {
  supported: 'one matrix or a faithful copy of it is supported',
  against: 'another matrix of the same design',
  otherDesign: 'another design',
  undecided: 'undecided',
};

/** A verified pair's finding in a few words, with its strength and score where it has them. */
export function pairWords({
  finding,
  strength,
  score,
}: {
  readonly finding: string;
  readonly strength?: string | null;
  readonly score: number | null;
}): string {
  const known = [strength && strength !== 'none' ? strength : '', score === null ? '' : `score ${score.toFixed(1)}`];
  const beside = known.filter(Boolean).join(', ');
  return `${findingNames[finding] ?? finding}${beside ? ` (${beside})` : ''}`;
}

/** A decision by hand with who made it and when. */
export const decisionWords = ({ kind, by, at, words, members }: Decision): string =>
  `${kind} by ${by}, ${at.slice(0, 10)}: ${members.map(objectLabel).join('; ')}${words ? `: ${words}` : ''}`;

function descentWords({ a, b, relation, by }: Group['descent'][number]): string {
  const how = by === 'stated' ? 'stated' : 'read from the pair';
  if (relation === 'castOf') return `${objectLabel(a)} is a cast of ${objectLabel(b)} or goes back to it (${how})`;
  if (relation === 'scansOf') return `${objectLabel(a)} and ${objectLabel(b)} are scans of one object (${how})`;
  return `${objectLabel(a)} and ${objectLabel(b)} are of one descent, which way is not known (${how})`;
}

/** Dates of documents are shown beside the states and decide nothing. */
function stateWords({ earlier, later }: Group['states'][number]): string {
  const dated = ({ documentDate }: Named): string => (documentDate ? ` (document ${documentDate})` : '');
  return `${objectLabel(earlier)}${dated(earlier)} shows an earlier state than ${objectLabel(later)}${dated(later)}`;
}

export const sidesWords = ({ groups, by }: GroupRecord['sides'][number]): string =>
  `${groups.join(' and ')} are two sides of one piece, by ${by.map(({ a, b }) => `${objectLabel(a)} and ${objectLabel(b)}`).join('; ')}`;

type Parted = GroupRecord['parted'][number];

/** That two sets stand apart though their pairs would tie them, and why. */
export function partedWords(parted: Parted): string {
  const [one, other] = parted.sides.map((side) => side.map(objectLabel).join('; '));
  return `${one} / ${other}: ${partedBy(parted)}`;
}

/** What keeps two sets apart, in numbers. */
export function partedBy({ agreement, commonMm, independent }: Parted): string {
  const by = independent ? 'in pairs without an object in common' : 'in pairs that have one object in common';
  return `places off in the same way by ${commonMm.toFixed(3)} mm ${by} (agreement ${agreement.toFixed(2)})`;
}

/** The set that keeps two objects apart, one on either side; undefined where none does. */
export const partedBetween = (parted: readonly Parted[], a: number, b: number): Parted | undefined =>
  parted.find(({ sides }) => {
    const [one, other] = sides.map((side) => side.map(({ scan }) => scan));
    return (one.includes(a) && other.includes(b)) || (one.includes(b) && other.includes(a));
  });

export const partedTitle =
  'Single pairs are supported, but letters and ornaments are off in the same way in all pairs across, as one matrix carefully copied by hand from the other shows it and one matrix does not';

/** Where a new object stands before all its pairs are verified. */
export const provisionalWords = (label: string, group: Pick<Group, 'id' | 'name'>, others: readonly string[]): string =>
  `${label}: provisionally in ${groupTitle(group)}, with ${others.slice(0, 4).join('; ')}${others.length > 4 ? ` and ${others.length - 4} more` : ''}; the rest is verified behind it`;

/** Why a search puts a face forward: how many places agree, and how much of it the query is. */
export function candidateWords(why: {
  readonly inliers?: number;
  readonly areaShare?: number;
  readonly mirrored?: boolean;
}): string {
  const { inliers, areaShare, mirrored } = why;
  const places = inliers === undefined ? [] : [`${inliers} places agree`];
  if (areaShare !== undefined && areaShare < 0.6) places.push('possibly of a part of it');
  if (mirrored) places.push('better as seen in a mirror');
  return places.join(', ');
}
