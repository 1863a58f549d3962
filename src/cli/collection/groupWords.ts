import type { GroupRecord, Member, Named } from '../../core/report/index.ts';
import {
  groupingSummary,
  groupNotes,
  imageLeftWords,
  objectLabel,
  partedTitle,
  partedWords,
  possibleMemberWords,
  sidesWords,
  tieWords,
} from '../../core/report/words/index.ts';
import { writeCsv } from '../../core/scan/index.ts';

type Group = GroupRecord['groups'][number];

/** The groups as lines for reading. */
export function groupWords(record: GroupRecord): string {
  const { groups, caution, sides, parted, waiting } = record;
  const lines = [caution, groupingSummary(record), ...groups.flatMap((group) => ['', ...linesOf(group)])];
  for (const side of sides) lines.push('', sidesWords(side));
  if (parted.length > 0) lines.push('', `Kept apart. ${partedTitle}:`);
  for (const one of parted) lines.push(`  ${partedWords(one)}`);
  if (waiting.length > 0) lines.push('', 'supported, but too weak alone to tie, or outweighed by what speaks against:');
  for (const { a, b, score } of waiting)
    lines.push(`  ${objectLabel(a)} and ${objectLabel(b)} (score ${score.toFixed(1)})`);
  return lines.join('\n');
}

function linesOf(group: Group): string[] {
  const width = Math.max(...group.members.map((member) => objectLabel(member).length));
  const line = (member: Member): string =>
    `  ${objectLabel(member).padEnd(width)}  ${member.kind.padEnd(10)}  ${(member.documentDate ?? '').padEnd(10)}  ${imageLeftWords(member)}`.trimEnd();
  return [
    `${group.id}${group.name ? ` "${group.name}"` : ''}: ${tieWords(group)}`,
    ...group.members.map(line),
    ...group.possibleMembers.map((one) => `  ${possibleMemberWords(one)}`),
    ...groupNotes(group).map((note) => `  ${note}`),
  ];
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
