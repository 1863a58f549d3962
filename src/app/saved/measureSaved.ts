import type { HeightGrid } from '../../core/geometry/index.ts';
import { writePly } from '../../core/scan/index.ts';
import type { FaceView } from '../../workers/browser/protocol.ts';
import { withoutByHand } from '../state/byHand.ts';
import { keepBlob } from '../state/bytes.ts';
import type { Document, ScanEntry } from '../state/document.ts';
import { newId } from '../state/newId.ts';
import { saveFile } from '../state/persist.ts';
import { act, documentNow, getState, setState } from '../state/store.ts';
import { gridOfPicture } from './grids.ts';

/** The scans of which only the surface in the saved file is here. */
export const savedOnly = (document: Document): readonly ScanEntry[] =>
  document.scans.filter(({ id }) => faceInFile(id) !== undefined);

const faceInFile = (id: string): FaceView | undefined => {
  const face = getState().faces[id];
  return face?.at === 'ready' && face.value.fromFile ? face.value : undefined;
};

/**
 * Takes the surfaces in the saved file for scans of their own and compares them again: what then stands on the page was
 * worked out here, on reduced surfaces. Places put by hand belong to the originals and are left behind; undo brings all back.
 */
export function measureSaved(): void {
  const fresh = new Map(savedOnly(documentNow()).flatMap((scan) => entryFrom(scan)));
  if (fresh.size === 0) return;
  const idNow = (id: string | null): string | null => (id === null ? null : (fresh.get(id)?.id ?? id));
  act('Measured again from the saved surfaces', (document) => ({
    ...withoutByHand(document),
    scans: document.scans.map((scan) => fresh.get(scan.id) ?? scan),
    referenceId: idNow(document.referenceId),
    subjectId: idNow(document.subjectId),
    compare: true,
    read: {
      ...document.read,
      legends: renamed(document.read.legends, idNow),
      cards: renamed(document.read.cards, idNow),
    },
  }));
  setState({ faceId: null });
}

function entryFrom(scan: ScanEntry): [string, ScanEntry][] {
  const face = faceInFile(scan.id);
  if (!face) return [];
  const id = newId();
  const file = new Blob([surfaceFile(gridOfPicture(face.picture)) as Uint8Array<ArrayBuffer>]);
  keepBlob(id, file);
  void saveFile(id, file).catch(() => undefined);
  const { kind = face.kind, material, scaleUncertaintyPercent } = scan.stated;
  const stated = {
    ...({ kind, unit: 'mm', toward: [0, 0, 1] } as const),
    ...(material && { material }),
    ...(scaleUncertaintyPercent !== undefined && { scaleUncertaintyPercent }),
  };
  const name = `${scan.name.replace(/\.[^.]+$/, '')} (surface of the saved file).ply`;
  return [[scan.id, { ...scan, id, name, stated, reduced: true, opening: false }]];
}

const renamed = <T>(of: Readonly<Record<string, T>>, idNow: (id: string) => string | null): Record<string, T> =>
  Object.fromEntries(Object.entries(of).map(([id, one]) => [idNow(id) ?? id, one]));

/** A relief as a surface file in mm: two triangles between any four neighbours with data. */
export function surfaceFile({ width, height, pitch, left, top, z, mask }: HeightGrid): Uint8Array {
  const vertex = new Int32Array(z.length).fill(-1);
  const positions: number[] = [];
  for (let i = 0; i < z.length; i++) {
    if (!mask[i]) continue;
    vertex[i] = positions.length / 3;
    positions.push(left + (i % width) * pitch, top - Math.floor(i / width) * pitch, z[i]);
  }
  const triangles: number[] = [];
  for (let row = 0; row < height - 1; row++)
    for (let col = 0; col < width - 1; col++) {
      const i = row * width + col;
      const [a, b, c, d] = [vertex[i], vertex[i + 1], vertex[i + width], vertex[i + width + 1]];
      if (a >= 0 && b >= 0 && c >= 0 && d >= 0) triangles.push(a, c, b, b, c, d);
    }
  return writePly(Float32Array.from(positions), Uint32Array.from(triangles));
}
