import type { Face } from '../../face/index.ts';
import { quantile } from '../../geometry/index.ts';
import type { Mark } from '../types.ts';
import { type WearMap, wearLabel } from '../wearLabels.ts';
import type { LossField } from '../wearLoss.ts';
import type { WearRelief } from '../wearRelief.ts';
import { cellOutline } from './cellOutline.ts';
import { type LineMark, lineMarks } from './lines.ts';
import { measureLine } from './measureLine.ts';
import { markReadings } from './readings.ts';
import { type SpotMark, spotMarks } from './spots.ts';

/** A mark and whether the other face could have shown it. */
export interface FoundMark extends Mark {
  /** Filled, unworn and scanned on the face that lacks it; true where both carry it. */
  readonly otherIsSound: boolean;
  /** Raised on the face that carries it, in the positive's sense. */
  readonly raised: boolean;
}

export const markDefaults = {
  /** A line narrower than this that wanders by more than this share of its length is a crack. */
  crackWidthMm: 0.5,
  crackStray: 0.03,
  /** The other face is sound around a mark when no more than this share of it there is worn, lost or missing. */
  unsound: 0.4,
};

/**
 * Marks of damage on either face, in the order of their size. Lines: those that one face has and the other lacks,
 * and those that both carry across the design, which show in no difference. Spots: compact losses and additions.
 * `band`: cells of the legend. Outlines in the reference's face frame; places in the impression's sense.
 */
export function findMarks(
  relief: WearRelief,
  loss: LossField,
  map: WearMap,
  band: Uint8Array,
  faces: { readonly reference: Face; readonly subject: Face },
  options = markDefaults,
): FoundMark[] {
  const lines = lineMarks(relief, loss, map, band);
  const taken = cellsNear(relief, lines);
  const spots = spotMarks(relief, loss, map, taken);
  const senses = { referenceSense: faces.reference.sense, subjectSense: faces.subject.sense };
  const marks = [
    ...lines.map((line) => fromLine(relief, map, line, senses, options)),
    ...spots.map((spot) => fromSpot(relief, map, spot, senses, options)),
  ];
  marks.sort((a, b) => b.volumeMm3 - a.volumeMm3);
  return marks.map((mark, k) => ({ ...mark, id: `M${k + 1}` }));
}

type Senses = Pick<Parameters<typeof markReadings>[0], 'referenceSense' | 'subjectSense'>;

/** Cells within a millimetre of a line: what lies there belongs to it. */
function cellsNear({ reference }: WearRelief, lines: readonly LineMark[]): Uint8Array {
  const near = new Uint8Array(reference.z.length);
  const reach = Math.max(1, Math.round(1 / reference.pitch));
  for (const { chain } of lines)
    for (const i of chain.cells)
      for (let dy = -reach; dy <= reach; dy++)
        for (let dx = -reach; dx <= reach; dx++) near[i + dy * reference.width + dx] = 1;
  return near;
}

function fromLine(
  relief: WearRelief,
  map: WearMap,
  line: LineMark,
  senses: Senses,
  options: typeof markDefaults,
): FoundMark {
  const { chain, carriedBy } = line;
  const height = carriedBy === 'both' ? meanHeight(relief) : relief.difference;
  const measured = measureLine(relief.reference, height, chain);
  const raised = (carriedBy === 'reference' ? line.onReferenceMm : line.onSubjectMm) > 0;
  const wanders = chain.strayMm > options.crackStray * chain.lengthMm;
  const shape = wanders && measured.widthMm < options.crackWidthMm ? 'crack' : 'cut';
  const otherIsSound = carriedBy === 'both' || soundAlong(relief, map, chain.cells, options);
  return finish(relief, { shape, carriedBy, raised, otherIsSound }, measured, [chain.x, chain.y], senses);
}

function fromSpot(
  relief: WearRelief,
  map: WearMap,
  spot: SpotMark,
  senses: Senses,
  options: typeof markDefaults,
): FoundMark {
  const { reference, difference } = relief;
  const area = reference.pitch ** 2;
  const size = Float32Array.from(spot.cells, (i) => Math.abs(difference[i]));
  const measured = {
    outline: cellOutline(reference, spot.cells),
    areaMm2: spot.cells.length * area,
    depthMm: quantile(size, 0.9),
    volumeMm3: size.reduce((sum, value) => sum + value, 0) * area,
  };
  const n = spot.cells.length;
  const x = spot.cells.reduce((sum, i) => sum + reference.left + (i % reference.width) * reference.pitch, 0) / n;
  const y =
    spot.cells.reduce((sum, i) => sum + reference.top - Math.floor(i / reference.width) * reference.pitch, 0) / n;
  const otherIsSound = soundAlong(relief, map, Array.from(spot.cells), options);
  return finish(
    relief,
    { shape: spot.shape, carriedBy: spot.carriedBy, raised: spot.departureMm > 0, otherIsSound },
    measured,
    [x, y],
    senses,
  );
}

function finish(
  relief: WearRelief,
  what: Pick<FoundMark, 'shape' | 'carriedBy' | 'raised' | 'otherIsSound'>,
  measured: Pick<Mark, 'outline' | 'areaMm2' | 'depthMm' | 'volumeMm3'>,
  [x, y]: readonly [number, number],
  senses: Senses,
): FoundMark {
  const onSubject = what.carriedBy === 'reference' ? 'absent' : what.raised ? 'raised' : 'sunk';
  const { areaMm2, depthMm, volumeMm3 } = measured;
  return {
    id: '',
    ...what,
    onSubject,
    at: placeOf(x, y),
    areaMm2,
    depthMm,
    volumeMm3,
    readings: markReadings({ ...what, onSubject, ...senses }),
    outline: relief.turned ? measured.outline.map((value, k) => (k % 2 === 0 ? -value : value)) : measured.outline,
  };
}

/** Clockwise from the top as the impression shows it, the clock hour beside, and the distance from the centre. */
export function placeOf(x: number, y: number): Mark['at'] {
  const deg = ((Math.atan2(x, y) * 180) / Math.PI + 360) % 360;
  const hour = Math.round(deg / 30) % 12 || 12;
  return { deg, hour, radiusMm: Math.hypot(x, y) };
}

function meanHeight({ reference, subject }: WearRelief): Float32Array {
  return reference.z.map((z, i) => (reference.mask[i] && subject.mask[i] ? (z + subject.z[i]) / 2 : Number.NaN));
}

/** Whether the ground one to two millimetres around the cells shows the design as it was made. */
function soundAlong(
  { reference }: WearRelief,
  { labels }: WearMap,
  cells: readonly number[],
  { unsound }: typeof markDefaults,
): boolean {
  const { width, pitch } = reference;
  const bad = new Set((['rubbed', 'flattened', 'notFilled', 'lost', 'cannotJudge'] as const).map(wearLabel));
  let [all, count] = [0, 0];
  for (const i of cells)
    for (let k = 0; k < 8; k++)
      for (const away of [1.2, 2]) {
        const dc = Math.round((Math.cos((k * Math.PI) / 4) * away) / pitch);
        const dr = Math.round((Math.sin((k * Math.PI) / 4) * away) / pitch);
        const label = labels[i + dr * width + dc] ?? 0;
        if (!label) continue;
        all++;
        if (bad.has(label)) count++;
      }
  return all > 0 && count <= unsound * all;
}
