import { writeCsv } from '../../core/scan/index.ts';
import type { GroupRecord, Named } from './groupRecord.ts';

type Group = GroupRecord['groups'][number];

const labelOf = ({ shelfmark, seal, side }: Named): string =>
  [shelfmark, seal && `seal ${seal}`, side].filter(Boolean).join(', ');

const count = (n: number, of: string): string => `${n} ${of}${n === 1 ? '' : 's'}`;

/** The groups as lines for reading. */
export function groupWords(record: GroupRecord): string {
  const { groups, single, compared, expectedFalseMerges, caution, sides, waiting } = record;
  const head = `${count(groups.length, 'group')}, ${count(single.length, 'object')} in none; ${count(compared, 'pair')} verified; false merges to be expected in the whole collection: at most ${expectedFalseMerges.toPrecision(2)}`;
  const lines = [caution, head, ...groups.flatMap((group) => ['', ...linesOf(group)])];
  for (const { groups: two, by } of sides)
    lines.push(
      '',
      `${two.join(' and ')} are two sides of one piece, by ${by.map(({ a, b }) => `${labelOf(a)} and ${labelOf(b)}`).join('; ')}`,
    );
  if (waiting.length > 0) lines.push('', 'supported, but too weak alone to tie:');
  for (const { a, b, score } of waiting) lines.push(`  ${labelOf(a)} and ${labelOf(b)} (score ${score.toFixed(1)})`);
  return lines.join('\n');
}

function linesOf(group: Group): string[] {
  const { weakest } = group;
  const tie = weakest
    ? `weakest tie ${labelOf(weakest.a)} and ${labelOf(weakest.b)} (score ${weakest.score.toFixed(1)})`
    : 'tied by what is stated or decided alone';
  const width = Math.max(...group.members.map((member) => labelOf(member).length));
  return [
    `${group.id}${group.name ? ` "${group.name}"` : ''}: ${group.strength ?? 'stated'}, ${tie}`,
    ...group.members.map((member) => {
      const left = member.imageLeft === null ? '' : `${Math.round(100 * member.imageLeft)} % of the image`;
      return `  ${labelOf(member).padEnd(width)}  ${member.kind.padEnd(10)}  ${(member.documentDate ?? '').padEnd(10)}  ${left}`.trimEnd();
    }),
    ...group.possibleMembers.map(
      (one) =>
        `  possible member, a fragment: ${labelOf(one)}, by ${labelOf(one.with)} (score ${one.score.toFixed(1)})`,
    ),
    ...groupNotes(group).map((note) => `  ${note}`),
  ];
}

/** What is said of a group beside its members: descent, states, what speaks against it, decisions by hand. */
export function groupNotes(group: Group): string[] {
  return [
    ...group.descent.map(descentWords),
    ...group.states.map(stateWords),
    ...group.stateContradictions.map((set) => `states contradict one another: ${set.map(labelOf).join('; ')}`),
    ...group.against.map(
      ({ a, b, finding, score }) =>
        `against it, outweighed: ${labelOf(a)} and ${labelOf(b)}: ${finding}${score === null ? '' : ` (score ${score.toFixed(1)})`}`,
    ),
    ...group.decisions.map(
      ({ kind, by, at, words, members }) =>
        `${kind} by ${by}, ${at.slice(0, 10)}: ${members.map(labelOf).join('; ')}${words ? `: ${words}` : ''}`,
    ),
  ];
}

function descentWords({ a, b, relation, by }: Group['descent'][number]): string {
  const how = by === 'stated' ? 'stated' : 'read from the pair';
  if (relation === 'castOf') return `${labelOf(a)} is a cast of ${labelOf(b)} or goes back to it (${how})`;
  if (relation === 'scansOf') return `${labelOf(a)} and ${labelOf(b)} are scans of one object (${how})`;
  return `${labelOf(a)} and ${labelOf(b)} are of one descent, which way is not known (${how})`;
}

/** Dates of documents are shown beside the states and decide nothing. */
function stateWords({ earlier, later }: Group['states'][number]): string {
  const dated = ({ documentDate }: Named): string => (documentDate ? ` (document ${documentDate})` : '');
  return `${labelOf(earlier)}${dated(earlier)} shows an earlier state than ${labelOf(later)}${dated(later)}`;
}

/** One row for each member and possible member, and for each object in no group. */
export function groupTable({ groups, single }: GroupRecord): string {
  const head = [
    'group',
    'name',
    'membership',
    'shelfmark',
    'kind',
    'seal',
    'side',
    'document_date',
    'image_left',
    'group_strength',
    'file',
  ];
  const row = (group: Group | null, membership: string, one: Named, left: number | null): unknown[] => [
    group?.id ?? '',
    group?.name ?? '',
    membership,
    ...[one.shelfmark, one.kind, one.seal, one.side, one.documentDate],
    left === null ? '' : Number(left.toFixed(3)),
    group?.strength ?? '',
    one.file,
  ];
  return writeCsv([
    head,
    ...groups.flatMap((group) => [
      ...group.members.map((one) => row(group, 'member', one, one.imageLeft)),
      ...group.possibleMembers.map((one) => row(group, 'possible member', one, one.imageLeft)),
    ]),
    ...single.map((one) => row(null, 'none', one, null)),
  ]);
}
