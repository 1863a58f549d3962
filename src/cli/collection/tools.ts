import { encode } from 'fast-png';
import { turnGridOver } from '../../core/geometry/index.ts';
import type { PreparedScan } from '../../core/pipeline.ts';
import type { ScanRow } from '../../store/catalogue.ts';
import { faceSearch } from '../../store/faceSearch.ts';
import type { Tools } from '../../store/steps.ts';
import { thumbnail } from '../../workers/browser/thumbnail.ts';
import { scanInput } from '../files.ts';
import { build, version } from '../version.ts';

/** What the command line gives the steps of a collection. */
export const tools: Tools = {
  search: faceSearch,
  read: ({ path, kind, unit, material, scale_uncertainty }: ScanRow) =>
    scanInput(path, {
      kind,
      unit: unit ?? undefined,
      material: material ?? undefined,
      'scale-uncertainty': scale_uncertainty === null ? undefined : String(scale_uncertainty),
    }),
  picture: smallPicture,
  tool: `ectype ${version} (build ${build})`,
};

/** The face in the sense of its impression under one lamp, at most 180 cells a side: pictures of one matrix look alike. */
export function smallPicture({ face }: PreparedScan): Uint8Array {
  const { width, height, rgba } = thumbnail(face.sense === 'intaglio' ? turnGridOver(face.detail) : face.detail);
  return encode({ width, height, data: new Uint8Array(rgba.buffer), channels: 4, depth: 8 });
}
