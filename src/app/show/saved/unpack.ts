import type { HeightGrid } from '../../../core/geometry/index.ts';
import type { ComparisonView, FaceView } from '../../../workers/browser/protocol.ts';
import { reliefPicture } from '../../../workers/browser/reliefPicture.ts';
import { thumbnail } from '../../../workers/browser/thumbnail.ts';
import { type Document, emptyDocument, restingView } from '../../state/document.ts';
import { readGlb } from './glb.ts';
import { loadGrid, type StoredGrid } from './grids.ts';
import { fromPlain } from './plain.ts';

export interface Unpacked {
  readonly document: Document;
  readonly faces: Readonly<Record<string, FaceView>>;
  readonly comparison: ComparisonView | null;
  readonly detail: 'reduced' | 'full';
}

interface StoredFace extends Omit<FaceView, 'picture' | 'mesh' | 'thumbnail'> {
  readonly mesh: number;
  readonly relief: StoredGrid;
}

interface Gltf {
  readonly asset: { readonly extras?: { readonly ectype?: Saved } };
  readonly bufferViews: ReadonlyArray<{ readonly byteOffset: number; readonly byteLength: number }>;
  readonly accessors: ReadonlyArray<{ readonly bufferView: number }>;
  readonly meshes: ReadonlyArray<{
    readonly primitives: ReadonlyArray<{
      readonly attributes: { readonly POSITION: number };
      readonly indices: number;
    }>;
  }>;
}

interface Saved {
  readonly schema: string;
  readonly document: Document;
  readonly faces: Readonly<Record<string, StoredFace>>;
  readonly comparison: (Omit<ComparisonView, 'difference'> & { readonly difference: unknown }) | null;
  readonly detail: 'reduced' | 'full';
}

/** Reads a saved comparison back; null where the bytes are an ordinary scan. */
export function unpackComparison(bytes: Uint8Array): Unpacked | null {
  const glb = readGlb(bytes);
  const gltf = glb?.json as unknown as Gltf | undefined;
  const saved = gltf?.asset.extras?.ectype;
  if (!glb || !gltf || saved?.schema !== 'ectype/saved/1') return null;
  const bytesOf = (view: number): ArrayBuffer => {
    const { byteOffset, byteLength } = gltf.bufferViews[view];
    return glb.binary.slice(byteOffset, byteOffset + byteLength).buffer as ArrayBuffer;
  };
  const gridOf = (stored: StoredGrid) => loadGrid(stored, new Uint16Array(bytesOf(stored.view)));
  const faces = Object.entries(saved.faces).map(([id, face]): [string, FaceView] => {
    const { relief, mesh, ...small } = face;
    const grid = gridOf(relief);
    const { attributes, indices } = gltf.meshes[mesh].primitives[0];
    const positions = new Float32Array(bytesOf(gltf.accessors[attributes.POSITION].bufferView)).map((m) => m * 1000);
    const triangles = new Uint32Array(bytesOf(gltf.accessors[indices].bufferView));
    const plain = fromPlain(small) as Omit<StoredFace, 'relief' | 'mesh'>;
    return [id, { ...plain, picture: reliefPicture(grid), mesh: { positions, triangles }, thumbnail: thumbnail(grid) }];
  });
  return {
    document: { ...emptyDocument, ...saved.document, view: { ...restingView, ...saved.document.view } },
    faces: Object.fromEntries(faces),
    comparison: saved.comparison && comparisonOf(saved.comparison, gridOf),
    detail: saved.detail,
  };
}

interface StoredDifference {
  readonly map: StoredGrid;
  readonly levelOfDetection: StoredGrid;
  /** Files of earlier versions lack it. */
  readonly significant?: StoredGrid;
}

function comparisonOf(
  stored: NonNullable<Saved['comparison']>,
  gridOf: (grid: StoredGrid) => HeightGrid,
): ComparisonView {
  const plain = fromPlain({ ...stored, difference: null }) as ComparisonView;
  if (!stored.difference) return plain;
  const { map, levelOfDetection, significant, ...numbers } = stored.difference as StoredDifference;
  const difference = {
    ...(fromPlain(numbers) as object),
    map: gridOf(map),
    levelOfDetection: gridOf(levelOfDetection),
    ...(significant && { significant: Uint8Array.from(gridOf(significant).z, (share) => (share >= 0.5 ? 1 : 0)) }),
  };
  return { ...plain, difference: difference as unknown as ComparisonView['difference'] };
}
