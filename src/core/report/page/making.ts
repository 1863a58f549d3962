import type { OutlineShape } from '../../face/index.ts';
import { stepNames } from '../input.ts';
import type { ComparisonRecord, ScanRecord } from '../record/schema.ts';
import { outlineWords } from '../words/shapes.ts';
import { count, number, percent, safe, section, table, terms } from './html.ts';

/** The files as they came, what was stated and assumed, what was mended, with what and when. */
export function makingSection(record: ComparisonRecord): string {
  return section('making', 'How this was made', `${filesTable(record)}${programTerms(record)}`);
}

function filesTable({ reference, subject }: ComparisonRecord): string {
  const row = (name: string, cell: (scan: ScanRecord) => string): string[] => [name, cell(reference), cell(subject)];
  return table(
    'The two scans.',
    [
      { head: '', words: true },
      { head: 'reference', words: true },
      { head: 'subject', words: true },
    ],
    [
      row(
        'file',
        (s) =>
          `<i>${safe(s.file)}</i>${s.mirroredBack ? ', a mirror image, read mirrored back as stated by the user' : ''}`,
      ),
      row('SHA-256', (s) => `<code>${hashLines(s.sha256)}</code>`),
      row('shows', (s) => `${s.kind}${s.material ? `, ${safe(String(s.material))}` : ''} (${from(s.kindFrom)})`),
      row(
        'sense',
        (s) =>
          `${s.sense === 'intaglio' ? 'engraved' : 'raised'} (${senseFrom(s.senseFrom)}${s.senseFrom === 'stated' ? '' : `, the program’s own estimate ${number(s.senseConfidence, 2)} of 1`})`,
      ),
      row('unit', (s) => `${s.unit} (${s.unitFrom === 'file' ? 'given by the file' : from(s.unitFrom)})`),
      row('scale known to', (s) => `${number(s.scaleUncertaintyPercent, 2)} % (${from(s.scaleUncertaintyFrom)})`),
      row('size', (s) => `${count(s.vertices)} vertices, ${count(s.triangles)} triangles`),
      row('face', faceCell),
      row('scan', scanCell),
      row('mended', mendedCell),
    ],
  );
}

const from = (value: unknown): string => (value === 'stated' ? 'stated by the user' : 'assumed');

const senseFrom = (value: unknown): string =>
  value === 'stated' ? 'stated' : value === 'closedBody' ? 'from the closed body' : 'from the winding alone';

/** Two lines of 32, so that a column can hold it. */
const hashLines = (sha256: string): string => `${sha256.slice(0, 32)}<wbr>${sha256.slice(32)}`;

interface FaceRecord {
  readonly outline: OutlineShape;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly noiseMm: number | null;
  readonly resolutionMm: number;
  readonly filled: number;
  readonly holes: number;
  readonly candidates: number;
  readonly candidate: number;
}

function faceCell(scan: ScanRecord): string {
  const face = scan.face as FaceRecord | undefined;
  if (!face) return '–';
  const others = face.candidates > 1 ? `; face ${face.candidate + 1} of ${face.candidates} found` : '';
  return `${outlineWords[face.outline]}, ${number(face.heightMm, 1)} × ${number(face.widthMm, 1)} mm${others}`;
}

function scanCell(scan: ScanRecord): string {
  const face = scan.face as FaceRecord | undefined;
  if (!face) return '–';
  const holes = face.holes === 0 ? 'no holes' : face.holes === 1 ? '1 hole' : `${count(face.holes)} holes`;
  return `noise ${number(face.noiseMm, 3)} mm, point spacing ${number(face.resolutionMm, 3)} mm, ${percent(face.filled)} filled, ${holes}`;
}

const mendingPhrase: Record<string, string> = {
  notANumber: 'vertices that were no numbers',
  cornerNotANumber: 'triangles on such vertices left out',
  degenerate: 'triangles without area left out',
  duplicate: 'triangles listed twice left out',
  unreferenced: 'vertices without a triangle',
  welded: 'vertices joined',
  flipped: 'triangles turned to agree with their neighbours',
  strayPieces: 'stray pieces left out',
  strayTriangles: 'triangles on stray pieces',
};

function mendedCell(scan: ScanRecord): string {
  const counts = Object.entries((scan.repairs ?? {}) as Record<string, number>).filter(([, value]) => value > 0);
  if (counts.length === 0) return 'nothing';
  return safe(counts.map(([name, value]) => `${count(value)} ${mendingPhrase[name] ?? name}`).join('; '));
}

/** What a person left out, where, why and who. */
const excludedTerms = ({ excluded = [] }: ComparisonRecord): Array<[string, string]> =>
  excluded.length === 0
    ? []
    : [
        [
          'Left out',
          safe(
            excluded
              .map(({ why, by, areaMm2 }) => `${why || 'a region'}, ${number(areaMm2, 1)} mm²${by ? ` (${by})` : ''}`)
              .join('; '),
          ),
        ],
      ];

function programTerms(record: ComparisonRecord): string {
  const { seconds, parameters, version, startedAt } = record.paradata;
  const known = stepNames.filter((step) => seconds[step] !== null);
  const total = known.reduce((sum, step) => sum + (seconds[step] ?? 0), 0);
  const set = Object.entries(parameters.stated).map(
    ([name, value]) => `${name} ${typeof value === 'string' ? value : JSON.stringify(value)}`,
  );
  return terms([
    ['Program', `Ectype ${safe(version)}`],
    ['Started', `<time datetime="${safe(startedAt)}">${safe(startedAt)}</time>`],
    ['Time', safe(`${number(total, 2)} s: ${known.map((step) => `${step} ${number(seconds[step], 2)}`).join(', ')}`)],
    ...excludedTerms(record),
    ['Parameters', set.length > 0 ? safe(set.join('; ')) : `all at the defaults of Ectype ${safe(version)}`],
  ]).replace('<dl>', '<dl class="making">');
}

/** What a reader needs to come to the same numbers without this program. */
export function recomputeSection(record: ComparisonRecord): string {
  const { fit } = record;
  const steps = [
    'Check that the files are the same by their SHA-256 above.',
    `Run <code>${unbroken(commandOf(record))}</code>; the same files give the same numbers, whatever the order of their vertices.`,
  ];
  if (fit.subjectToReference)
    steps.push(
      `Or without this program: bring each vertex of the subject’s file, in mm, into the reference’s file by p<sub>reference</sub> = M p<sub>subject</sub> with M as below${fit.chosen === 'smoothWarp' ? ' (the similarity part; the warp is in the program’s record)' : ''}.`,
      'Take the distance from there to the closest place on the reference’s surface whose normal agrees (opposite normals where the two lay face to face), positive along the subject’s outward normal.',
      `Level of detection at 95 %: 1.96 (√(σ₁²/n₁ + σ₂²/n₂) + registration), with the noise σ of each scan, n independent neighbours, and the registration’s own uncertainty outside the root (Lague, Brodu and Leroux, ISPRS Journal 82, 2013).${levelWords(record)}`,
    );
  const matrix = fit.subjectToReference ? matrixTable(fit.subjectToReference) : '';
  const items = steps.map((step) => `<li>${step}</li>`).join('');
  return section(
    'recompute',
    'To compute it again',
    `<ol>${items}</ol>${matrix}<p>The whole record, with every number at full length, is written into this page’s source as JSON (<code>ectype/comparison/2</code>).</p>`,
  );
}

interface LevelRecord {
  readonly sigmaMm: readonly number[];
  readonly neighbours: readonly number[];
  readonly mapSigmaMm?: number;
  readonly systematicMm: number;
}

/** The numbers of this pair; what is left of the median level is the registration's share. */
function levelWords({ difference }: ComparisonRecord): string {
  const parts = difference.level as LevelRecord | undefined;
  const level = difference.levelOfDetectionMm;
  if (!parts || level === null) return '';
  const {
    sigmaMm: [s1, s2],
    neighbours: [n1, n2],
    mapSigmaMm: together = Number.POSITIVE_INFINITY,
    systematicMm,
  } = parts;
  const scans = Math.sqrt(s1 ** 2 / n1 + s2 ** 2 / n2);
  const rest = Math.max(0, level / 1.96 - Math.min(scans, together));
  const wax =
    systematicMm > 0
      ? `, ${number(systematicMm, 3)} mm of it for light inside wax (what is no cast and of no stated material is taken to be wax)`
      : '';
  const shown =
    together < scans
      ? `, at most; the map of the differences itself shows ${number(together, 4)} mm for the root, which is taken`
      : '';
  return ` Here σ is ${number(s1, 4)} mm (reference) and ${number(s2, 4)} mm (subject), n ${number(n1, 2)} and ${number(n2, 2)}${shown}; the registration, at the median place, ${number(rest, 4)} mm${wax}.`;
}

function matrixTable(m: readonly number[]): string {
  const rows = [0, 4, 8, 12].map(
    (at) =>
      `<tr>${m
        .slice(at, at + 4)
        .map((v) => `<td>${number(v, 9)}</td>`)
        .join('')}</tr>`,
  );
  return `<table class="matrix"><caption>M, subject file in mm → reference file in mm.</caption><tbody>${rows.join('')}</tbody></table>`;
}

/** Lines break between the words of a command only. */
const unbroken = (command: string): string =>
  command
    .split(' ')
    .map((word) => `<span class="once">${safe(word)}</span>`)
    .join(' ');

/** What was typed, or else what would have to be. */
function commandOf({ paradata, reference, subject }: ComparisonRecord): string {
  if (typeof paradata.commandLine === 'string') return paradata.commandLine;
  const stated = (of: (scan: ScanRecord) => unknown, when: (scan: ScanRecord) => boolean): string =>
    [['reference', reference] as const, ['subject', subject] as const]
      .filter(([, scan]) => when(scan))
      .map(([name, scan]) => `${name}=${of(scan)}`)
      .join(',');
  const unit = stated(
    (s) => s.unit,
    (s) => s.unitFrom === 'stated',
  );
  const kind = stated(
    (s) => s.kind,
    (s) => s.kindFrom === 'stated',
  );
  const options = [unit && `--unit ${unit}`, kind && `--kind ${kind}`].filter(Boolean).join(' ');
  return `ectype compare ${quoted(reference.file)} ${quoted(subject.file)} ${options} --out report`.replace(/ +/g, ' ');
}

const quoted = (name: string): string => (/^[\w./-]+$/.test(name) ? name : `'${name.replaceAll("'", "'\\''")}'`);
