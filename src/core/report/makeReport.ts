import { type Line, type Section, section } from '../compare/index.ts';
import { chosenModel } from '../fit/index.ts';
import { cellsCsv, landmarksCsv, marksCsv, numbersCsv } from './csv.ts';
import { type Deflate, type Drawing, packPictures, type Rasterise, toPng, toSvg } from './drawing/index.ts';
import { type Begun, drawFaces, drawUnmarked, type Figure, figureIds, makeFigures } from './figures/index.ts';
import { sectionLine } from './figures/sectionLine.ts';
import type { Comparison, LaidPair, MeasuredPair, Paradata, PreparedScan } from './input.ts';
import { type PageOptions, reportPage } from './page/page.ts';
import { buildRecord } from './record/buildRecord.ts';
import type { ComparisonRecord } from './record/schema.ts';
import { validateRecord } from './record/validate.ts';
import { saysSimulated } from './words/phrases.ts';

export interface ReportOptions extends PageOptions {
  /** The section to draw; else one is cut along `line`, or along a line that the report chooses. */
  readonly section?: Section;
  /** Ends in the reference's face frame, mm: x0, y0, x1, y1. */
  readonly line?: Line;
  /** No figures: record, words and tables only. */
  readonly withoutFigures?: boolean;
  /** Figures in the page only, none as files of their own. */
  readonly withoutFigureFiles?: boolean;
  /** Cells across each face in the figures. */
  readonly across?: number;
  /** Pixels across a full-width PNG. */
  readonly pngWidth?: number;
  /** Paints the figures as PNG; without it they are SVG only. */
  readonly rasterise?: Rasterise;
  /** Packs pictures and pixels where something quicker than the core's own deflate is at hand. */
  readonly deflate?: Deflate;
  /** Is given each figure as soon as it is drawn, to paint it elsewhere meanwhile; its PNG is then not among the files. */
  readonly paintElsewhere?: (id: Figure['id'], figure: FigureToPaint) => void;
  /** What `beginReport` has drawn of the same pair with the same options. */
  readonly begun?: Begun;
}

/** What `toPng` needs beside a rasteriser; plain data. */
export interface FigureToPaint {
  readonly drawing: Drawing;
  /** Pixels. */
  readonly across: number;
  readonly caption: string;
}

export const reportDefaults = { across: 400, pngWidth: 800 };

export interface Report {
  readonly record: ComparisonRecord;
  readonly html: string;
  readonly figures: readonly Figure[];
  /** By file name: figures as .svg and .png, captions as .txt, numbers as .csv. */
  readonly files: Map<string, Uint8Array | string>;
}

/** Every name that a report's files can have. */
export const reportFileNames: readonly string[] = [
  'numbers.csv',
  'cells.csv',
  'landmarks.csv',
  'marks.csv',
  'captions.txt',
  ...figureIds.flatMap((id) => [`${id}.svg`, `${id}.png`]),
];

/**
 * Draws the figures of a report that need nothing of marks and wear, while these are looked for; packs their pictures and hands them to
 * who paints, the faces before the others are drawn.
 */
export function beginReport(pair: MeasuredPair, options: ReportOptions = {}): Begun {
  const { across } = { ...reportDefaults, ...options };
  const begun = drawFaces(pair, across, simulatedOf(pair, options));
  handOut([begun.faces], options);
  const drawn = drawUnmarked(pair, begun);
  handOut(drawn.unmarked ?? [], options);
  return drawn;
}

function handOut(
  figures: readonly Figure[],
  { paintElsewhere, pngWidth = reportDefaults.pngWidth, deflate }: ReportOptions,
) {
  for (const figure of figures) paintElsewhere?.(figure.id, toPaint(figure, pngWidth));
  if (deflate) for (const { drawing } of figures) packPictures(drawing, deflate);
}

/**
 * The record alone. Whether the scans are simulated is told by the option or else by the files themselves or their names.
 * Throws a RangeError where the comparison does not make a valid record.
 */
export function makeRecord(
  comparison: Comparison,
  paradata: Paradata,
  options: Pick<ReportOptions, 'simulated'> = {},
): ComparisonRecord {
  const built = buildRecord(comparison, paradata);
  return validateRecord(simulatedOf(comparison, options) ? { ...built, simulated: true } : built);
}

/** The record as `makeRecord` makes it, the page and the files beside it. */
export function makeReport(comparison: Comparison, paradata: Paradata, options: ReportOptions = {}): Report {
  const { across, pngWidth } = { ...reportDefaults, ...options };
  const record = makeRecord(comparison, paradata, options);
  const simulated = simulatedOf(comparison, options);
  const figures = options.withoutFigures
    ? []
    : makeFigures(comparison, sectionOf(comparison, options), across, simulated, options.begun);
  const before = options.begun && [options.begun.faces, ...(options.begun.unmarked ?? [])];
  handOut(before ? figures.filter((figure) => !before.includes(figure)) : figures, options);
  const html = reportPage(record, figures, { ...options, simulated });
  const files = new Map<string, Uint8Array | string>([['numbers.csv', numbersCsv(record)]]);
  if (record.judge.cells.compared > 0) files.set('cells.csv', cellsCsv(record));
  if (comparison.judgement.constellation) files.set('landmarks.csv', landmarksCsv(record));
  if (record.damage.length > 0) files.set('marks.csv', marksCsv(record));
  if (!options.withoutFigureFiles) addFigures(files, figures, pngWidth, options);
  return { record, html, figures, files };
}

const simulatedOf = ({ reference, subject }: LaidPair, { simulated }: ReportOptions): boolean =>
  simulated ?? [reference, subject].some(isSimulated);

/** Simulated by the file's own word or by its name. */
const isSimulated = ({ scan }: PreparedScan): boolean => scan.simulated === true || saysSimulated(scan.name);

function sectionOf({ reference, subject, fit, difference, judgement }: Comparison, options: ReportOptions) {
  const model = chosenModel(fit);
  if (options.section || !difference || !model) return options.section;
  const line = options.line ?? sectionLine(reference.face, judgement.damage, difference);
  const side = ({ scan, face }: PreparedScan) => ({ mesh: scan.mesh, face });
  return section(side(reference), side(subject), model, fit.turnedOver, line);
}

function addFigures(
  files: Map<string, Uint8Array | string>,
  figures: readonly Figure[],
  pngWidth: number,
  { rasterise, deflate }: ReportOptions,
): void {
  if (figures.length === 0) return;
  const captions: string[] = [];
  for (const figure of figures) {
    const { id, heading } = figure;
    const { drawing, across, caption } = toPaint(figure, pngWidth);
    files.set(`${id}.svg`, toSvg(drawing, { paper: true }));
    if (rasterise) files.set(`${id}.png`, toPng(drawing, rasterise, across, caption, deflate));
    captions.push(`${id}\n${heading}. ${caption}\n`);
  }
  files.set('captions.txt', captions.join('\n'));
}

const toPaint = ({ drawing, caption }: Figure, pngWidth: number): FigureToPaint => ({
  drawing,
  across: Math.round((pngWidth * drawing.width) / 720),
  caption,
});
