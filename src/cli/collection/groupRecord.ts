import { type GroupRecord, groupRecord as recordOf } from '../../core/report/index.ts';
import type { ScanRow } from '../../store/catalogue.ts';
import type { Grouped } from '../../store/grouping.ts';
import { build, version } from '../version.ts';

/** The groups with their objects by name: what `--json` writes. */
export const groupRecord = ({ grouping, scans, links }: Grouped): GroupRecord =>
  recordOf(
    grouping,
    new Map([...scans].map(([id, row]) => [id, nameOf(row)])),
    links,
    `ectype ${version} (build ${build})`,
  );

export const nameOf = ({ id, shelfmark, kind, seal, side, document_date, path }: ScanRow) => ({
  scan: id,
  ...{ shelfmark, kind, seal, side },
  documentDate: document_date,
  file: path,
});
