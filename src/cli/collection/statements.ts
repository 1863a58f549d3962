import { escapeXml } from '../../core/scan/index.ts';
import type { ScanRow } from '../../store/catalogue.ts';
import type { Grouped } from '../../store/grouping.ts';

/** A verified pair that a person accepted: who says it, on whose evidence, how strong. */
export interface Statement {
  readonly a: ScanRow;
  readonly b: ScanRow;
  readonly strength: string;
  readonly score: number | null;
  /** Version and build of the tool that verified the pair. */
  readonly byTool: string;
  readonly acceptedBy: string;
  readonly acceptedAt: string;
  readonly words: string;
}

/** Pairs that are supported and that somebody has joined by name: nothing else leaves as a statement. The last to accept counts. */
export function acceptedStatements({ grouping, scans, links, decisions }: Grouped): Statement[] {
  const groupOf = new Map(grouping.groups.flatMap(({ id, members }) => members.map((member) => [member, id] as const)));
  const joins = decisions.filter(({ kind }) => kind === 'join');
  return links.flatMap(({ a, b, finding, strength, score, byTool }) => {
    const join = joins.findLast(({ members }) => members.includes(a) && members.includes(b));
    const [one, other] = [scans.get(a), scans.get(b)];
    const together = groupOf.get(a) !== undefined && groupOf.get(a) === groupOf.get(b);
    if (!join || !one || !other || !together || finding !== 'supported') return [];
    return [{ a: one, b: other, strength, score, byTool, acceptedBy: join.by, acceptedAt: join.at, words: join.words }];
  });
}

const claim = 'of one matrix or of faithful copies of it';

/** Each statement as an attribute assignment of CIDOC CRM (E13): assigned by whom, when, by what means; never a bare link. */
export function statementsJsonLd(statements: readonly Statement[]): string {
  const object = ({ shelfmark, path, kind }: ScanRow) => ({
    '@id': `urn:ectype:object:${encodeURIComponent(shelfmark)}`,
    '@type': 'crm:E22_Human-Made_Object',
    'crm:P1_is_identified_by': { '@type': 'crm:E42_Identifier', 'rdfs:label': shelfmark },
    'crm:P2_has_type': { '@type': 'crm:E55_Type', 'rdfs:label': kind },
    'crm:P138i_has_representation': { '@type': 'crm:E73_Information_Object', 'rdfs:label': path.split(/[\\/]/).at(-1) },
  });
  const graph = statements.map((one) => ({
    '@type': 'crm:E13_Attribute_Assignment',
    'crm:P140_assigned_attribute_to': object(one.a),
    'crm:P141_assigned': object(one.b),
    'crm:P177_assigned_property_of_type': { '@type': 'crm:E55_Type', 'rdfs:label': claim },
    'crm:P14_carried_out_by': { '@type': 'crm:E39_Actor', 'rdfs:label': one.acceptedBy },
    'crm:P4_has_time-span': { '@type': 'crm:E52_Time-Span', 'crm:P82_at_some_time_within': one.acceptedAt },
    'crm:P33_used_specific_technique': { '@type': 'crm:E29_Design_or_Procedure', 'rdfs:label': one.byTool },
    'crm:P3_has_note': [
      `Evidence: ${one.strength}${one.score === null ? '' : `, score ${one.score.toFixed(1)}`}.`,
      ...(one.words ? [one.words] : []),
    ],
  }));
  const context = { crm: 'http://www.cidoc-crm.org/cidoc-crm/', rdfs: 'http://www.w3.org/2000/01/rdf-schema#' };
  return `${JSON.stringify({ '@context': context, '@graph': graph }, null, 2)}\n`;
}

const certainty: Readonly<Record<string, string>> = { strong: 'high', moderate: 'medium', weak: 'low' };

/** The same as relations of TEI P5: `resp` says who, `cert` how sure, `source` by what; in a list to be put into a `standOff`. */
export function statementsTei(statements: readonly Statement[]): string {
  const objects = new Map(statements.flatMap(({ a, b }) => [a, b]).map((row) => [row.id, row]));
  const people = [...new Set(statements.map(({ acceptedBy }) => acceptedBy))];
  const person = (name: string): string => `person-${people.indexOf(name) + 1}`;
  return [
    '<standOff xmlns="http://www.tei-c.org/ns/1.0">',
    ...list(
      'listPerson',
      people.map((name) => `    <person xml:id="${person(name)}"><persName>${escapeXml(name)}</persName></person>`),
    ),
    ...list(
      'listObject',
      [...objects.values()].map(
        ({ id, shelfmark }) =>
          `    <object xml:id="object-${id}"><objectIdentifier><idno>${escapeXml(shelfmark)}</idno></objectIdentifier></object>`,
      ),
    ),
    ...list(
      'listRelation',
      statements.map(({ a, b, strength, score, byTool, acceptedBy, acceptedAt, words }) =>
        [
          `    <relation name="oneMatrixOrFaithfulCopies" mutual="#object-${a.id} #object-${b.id}" resp="#${person(acceptedBy)}" cert="${certainty[strength] ?? 'unknown'}" when="${escapeXml(acceptedAt)}">`,
          `      <desc>Objects ${claim}, accepted on the evidence of ${escapeXml(byTool)}: ${escapeXml(strength)}${score === null ? '' : `, score ${score.toFixed(1)}`}.${words ? ` ${escapeXml(words)}` : ''}</desc>`,
          '    </relation>',
        ].join('\n'),
      ),
    ),
    ...(statements.length === 0 ? ['  <!-- No pair has been accepted by name. -->'] : []),
    '</standOff>',
    '',
  ].join('\n');
}

/** A list has to have something in it. */
const list = (name: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : [`  <${name}>`, ...lines, `  </${name}>`];
