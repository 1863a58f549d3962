import { type ScanRequirement, scanCheck } from '../../core/change/index.ts';
import { matrixEdge, type SizedShape } from '../../core/face/index.ts';
import { medianEdge } from '../../core/geometry/index.ts';
import { type PreparedScan, prepareScan } from '../../core/pipeline.ts';
import { outlineWords, requirementWords } from '../../core/report/words/index.ts';
import { UsageError } from '../errors.ts';
import { scanInput } from '../files.ts';
import { namedFiles, readingOptions, textOf } from '../options.ts';
import { planOutputs } from '../output/outputs.ts';
import { watchOnTerminal } from '../progress.ts';
import { measuredNoise } from '../repeat.ts';
import { say, sayJson } from '../say.ts';
import type { Verb } from '../verb.ts';

export const describe: Verb = {
  name: 'describe',
  usage: 'SCAN',
  does: 'Says what a scan is: unit, size, sense, face, holes, resolution, noise, and what was repaired; and whether a later scan can be held against it.',
  options: [
    ...readingOptions,
    { name: 'json', type: 'string', value: 'FILE', help: 'write the same as JSON (- for standard output)' },
  ],
  async run(positionals, values) {
    if (positionals.length !== 1) throw new UsageError('describe takes one scan file.');
    const json = textOf(values.json);
    const outputs = planOutputs({ json, inputs: [...positionals, ...namedFiles(values)] });
    const watch = watchOnTerminal();
    const prepared = await prepareScan(scanInput(positionals[0], values), watch);
    const noise = await measuredNoise(prepared, values.repeat, values);
    watch.done();
    const checked = checkOf(prepared, noise);
    const text = JSON.stringify(describePrepared(prepared, noise, checked), null, 2);
    if (json !== undefined && json !== '-') outputs.file(json, `${text}\n`);
    await outputs.write();
    if (json === '-') sayJson(text);
    else say(`${inWords(prepared, noise)}${checkInWords(checked)}`.trimEnd());
  },
};

const checkOf = ({ scan, ...prepared }: PreparedScan, repeatNoiseMm: number | undefined): ScanRequirement[] =>
  scanCheck({ ...prepared, mesh: scan.mesh, unit: scan.unit, unitFrom: scan.unitFrom, repeatNoiseMm });

function describePrepared(
  { scan, face, kind, kindFrom }: PreparedScan,
  repeatNoiseMm: number | undefined,
  checked: readonly ScanRequirement[],
) {
  const { polygon: _polygon, ...outline } = face.outline;
  return {
    schema: 'ectype/description/1',
    file: scan.name,
    sha256: scan.sha256,
    format: scan.format,
    unit: scan.unit,
    unitFrom: scan.unitFrom,
    vertices: scan.vertices,
    triangles: scan.triangles,
    kind,
    kindFrom,
    sense: face.sense,
    senseFrom: face.senseFrom,
    senseConfidence: face.senseConfidence,
    outline,
    ...(face.sense === 'intaglio' && { image: matrixEdge(face) }),
    spacingMm: medianEdge(scan.mesh),
    noiseMm: repeatNoiseMm ?? face.noiseMm,
    noiseFrom: repeatNoiseMm === undefined ? 'estimated from one scan' : 'measured on a repeat scan',
    filled: face.filled,
    holes: face.holes,
    candidates: face.candidates,
    candidate: face.candidate,
    repairs: scan.repairs,
    scanning: checked.map((requirement) => ({ ...requirement, ...requirementWords(requirement) })),
  };
}

const repairWords: Readonly<Record<keyof PreparedScan['scan']['repairs'], string>> = {
  notANumber: 'vertices that are not numbers',
  cornerNotANumber: 'triangles with such a corner left out',
  degenerate: 'triangles without area left out',
  duplicate: 'triangles listed twice left out',
  unreferenced: 'vertices without a triangle',
  welded: 'vertices joined at the same place',
  flipped: 'triangles turned round',
  strayPieces: 'stray pieces left out',
  strayTriangles: 'triangles in them',
};

function inWords({ scan, face, kind, kindFrom }: PreparedScan, repeatNoiseMm: number | undefined): string {
  const { outline } = face;
  const repaired = Object.entries(scan.repairs).filter(([, count]) => count > 0);
  const noise = repeatNoiseMm ?? face.noiseMm;
  const lines = [
    `${scan.name}: ${scan.triangles.toLocaleString('en')} triangles, ${scan.vertices.toLocaleString('en')} vertices, unit ${scan.unit} (${scan.unitFrom})`,
    `face     ${outlineWords[outline.shape]}, ${outline.widthMm.toFixed(1)} × ${outline.heightMm.toFixed(1)} mm, ${Math.round(face.filled * 100)} % of it scanned, ${face.holes} holes`,
    ...(face.sense === 'intaglio' ? [sealInWords(matrixEdge(face))] : []),
    `sense    ${face.sense} (${face.senseFrom}, confidence ${face.senseConfidence.toFixed(2)}); kind ${kind} (${kindFrom})`,
    `scan     a point every ${medianEdge(scan.mesh).toFixed(3)} mm, noise ${(noise * 1000).toFixed(1)} µm (${repeatNoiseMm === undefined ? 'estimated, an upper bound' : 'measured on the repeat scan'})`,
    ...(face.candidates.length > 1
      ? [
          `faces    ${face.candidates.length} sides carry relief; number ${face.candidate + 1} is used; --face-toward chooses another`,
        ]
      : []),
    `repaired ${repaired.length === 0 ? 'nothing' : repaired.map(([name, count]) => `${count} ${repairWords[name as keyof typeof repairWords]}`).join(', ')}`,
  ];
  return `${lines.join('\n')}\n`;
}

const sealInWords = ({ shape, widthMm, heightMm }: SizedShape): string =>
  `seal     ${outlineWords[shape]}, ${widthMm.toFixed(1)} × ${heightMm.toFixed(1)} mm, by the matrix’s own edge`;

/** Whether the scan is such that a later one can be held against it, a line a requirement. */
function checkInWords(checked: readonly ScanRequirement[]): string {
  const lines = checked.map((requirement) => {
    const { says, remedy } = requirementWords(requirement);
    const verdict = requirement.passes === null ? 'open' : requirement.passes ? 'pass' : 'fail';
    return `${verdict}     ${says}${remedy ? `; ${remedy}` : ''}`;
  });
  return `to hold a later scan against it (docs/scanning.md)\n${lines.join('\n')}\n`;
}
