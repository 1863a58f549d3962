import type { Mesh } from '../geometry/index.ts';
import type { Totals } from './repair/totals.ts';

export const units = ['um', 'mm', 'cm', 'm', 'inch'] as const;
export type Unit = (typeof units)[number];
export const mmPer: Readonly<Record<Unit, number>> = { um: 0.001, mm: 1, cm: 10, m: 1000, inch: 25.4 };

/** What a scan shows. Matrix and mould are negatives (intaglio), impression and cast positives (relief). */
export const kinds = ['matrix', 'mould', 'impression', 'cast'] as const;
export type Kind = (typeof kinds)[number];

export type UnitFrom = 'stated' | 'file' | 'assumed';

/** What was mended while reading; every count is reported. */
export interface Repairs {
  /** Vertices that were not finite numbers; kept in place, used by no triangle. */
  readonly notANumber: number;
  /** Triangles dropped because one of their corners is not a number. */
  readonly cornerNotANumber: number;
  /** Faces dropped because two corners coincide, the area is zero, or there are fewer than three corners. */
  readonly degenerate: number;
  /** Triangles dropped because the same three corners were listed before. */
  readonly duplicate: number;
  /** Sound vertices that no triangle of the file uses. */
  readonly unreferenced: number;
  /** Vertices joined to another at exactly the same place (STL has no shared vertices). */
  readonly welded: number;
  /** Triangles whose winding was turned to agree with the neighbours'. */
  readonly flipped: number;
  /** Separate small pieces (under 1 % of the area) that were left out, and their triangles. */
  readonly strayPieces: number;
  readonly strayTriangles: number;
}

/** A surface file as read: not yet in a known unit unless the file says so. */
export interface RawScan {
  readonly name: string;
  readonly format: 'ply' | 'stl' | 'obj' | 'gltf' | 'x3p' | 'png' | 'tiff';
  /** SHA-256 of the file's bytes, lower-case hex. */
  readonly sha256: string;
  /** The file says of itself that it was computed, not scanned. */
  readonly simulated?: boolean;
  /** In the file's own unit, repaired, centred. */
  readonly mesh: Mesh;
  /** The unit the format states (X3P and glTF: metres; a height map: what the user stated), else undefined. */
  readonly unitInFile?: Unit;
  /** True where the format's unit is always meant (X3P); false where it is often wrong (glTF). */
  readonly unitTrusted: boolean;
  readonly repairs: Repairs;
  readonly vertices: number;
  readonly triangles: number;
  /** Sums over the mended mesh, where the reader kept them. */
  readonly totals?: Totals;
}

/** A scan in millimetres. */
export interface Scan extends Omit<RawScan, 'unitInFile' | 'unitTrusted' | 'totals'> {
  readonly unit: Unit;
  readonly unitFrom: UnitFrom;
}

/** What the user states about a scan. */
export interface ReadOptions {
  /** Overrides whatever the file says. */
  readonly unit?: Unit;
  /** Height maps only: side of a pixel, in `unit` or mm. */
  readonly pixelSize?: number;
  /** Height maps only: height of one step of the pixel value, in `unit` or mm. */
  readonly heightStep?: number;
}
