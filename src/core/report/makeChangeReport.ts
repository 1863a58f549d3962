import { writeCsv } from '../scan/index.ts';
import { type Rasterise, toPng, toSvg } from './drawing/index.ts';
import { type ChangeFigure, changeFigures } from './figures/change.ts';
import type { ChangeComparison, Paradata } from './input.ts';
import { type ChangePageOptions, changePage } from './page/changePage.ts';
import { buildChangeRecord } from './record/changeRecord.ts';
import type { ChangeRecord } from './record/changeSchema.ts';
import { saysSimulated } from './words/phrases.ts';

export interface ChangeReportOptions extends ChangePageOptions {
  /** No figures: record and words only. */
  readonly withoutFigures?: boolean;
  /** Paints the figures as PNG; without it they are SVG only. */
  readonly rasterise?: Rasterise;
}

export interface ChangeReport {
  readonly record: ChangeRecord;
  readonly html: string;
  /** By file name: figures as .svg and .png, captions as .txt, the changes as .csv. */
  readonly files: Map<string, Uint8Array | string>;
}

/** The record, the two pages and the files beside them, of one object on two dates. */
export function makeChangeReport(
  comparison: ChangeComparison,
  paradata: Paradata,
  options: ChangeReportOptions = {},
): ChangeReport {
  const simulated = [comparison.earlier, comparison.later].some(
    ({ scan }) => scan.simulated === true || saysSimulated(scan.name),
  );
  const record = buildChangeRecord(comparison, paradata, simulated);
  const figures = options.withoutFigures ? [] : changeFigures(comparison);
  const files = new Map<string, Uint8Array | string>([['changes.csv', changesCsv(record)]]);
  for (const figure of figures) addFigure(files, figure, options.rasterise);
  if (figures.length > 0)
    files.set('captions.txt', figures.map(({ id, heading, caption }) => `${id}\n${heading}. ${caption}\n`).join('\n'));
  return { record, html: changePage(record, figures, options), files };
}

function addFigure(files: Map<string, Uint8Array | string>, figure: ChangeFigure, rasterise?: Rasterise): void {
  const { id, drawing, caption } = figure;
  files.set(`${id}.svg`, toSvg(drawing, { paper: true }));
  if (rasterise) files.set(`${id}.png`, toPng(drawing, rasterise, 800, caption));
}

const changesCsv = ({ changes }: ChangeRecord): string =>
  writeCsv([
    [
      'id',
      'direction',
      'shape',
      'deg',
      'hour',
      'radius_mm',
      'area_mm2',
      'mean_mm',
      'farthest_mm',
      'volume_mm3',
      'volume_sd_mm3',
      'length_mm',
      'causes',
    ],
    ...changes.map((c) => [
      c.id,
      c.direction,
      c.shape,
      c.at.deg,
      c.at.hour,
      c.at.radiusMm,
      c.areaMm2,
      c.meanMm,
      c.farthestMm,
      c.volumeMm3,
      c.volumeSdMm3,
      c.lengthMm,
      c.causes.join(' | '),
    ]),
  ]);
