/**
 * The part of a glTF 2.0 document that says where the triangles are. Files are full of mistakes, so that every number
 * is checked where it is used (see `whole` in accessor.ts); the types only say what is hoped for.
 */
export interface GltfDocument {
  readonly asset?: { readonly version?: string; readonly minVersion?: string };
  readonly extensionsRequired?: readonly string[];
  readonly scene?: number;
  readonly scenes?: ReadonlyArray<{ readonly nodes?: readonly number[] }>;
  readonly nodes?: readonly GltfNode[];
  readonly meshes?: ReadonlyArray<{ readonly primitives?: readonly GltfPrimitive[] }>;
  readonly accessors?: readonly GltfAccessor[];
  readonly bufferViews?: readonly GltfBufferView[];
  readonly buffers?: ReadonlyArray<{ readonly uri?: string; readonly byteLength?: number }>;
}

export interface GltfNode {
  readonly mesh?: number;
  readonly children?: readonly number[];
  /** Column-major. */
  readonly matrix?: readonly number[];
  readonly translation?: readonly number[];
  /** Quaternion x, y, z, w. */
  readonly rotation?: readonly number[];
  readonly scale?: readonly number[];
}

export interface GltfPrimitive {
  readonly attributes?: Readonly<Record<string, number>>;
  readonly indices?: number;
  readonly mode?: number;
  readonly extensions?: Readonly<Record<string, unknown>>;
}

export interface GltfAccessor {
  readonly bufferView?: number;
  readonly byteOffset?: number;
  readonly componentType?: number;
  readonly normalized?: boolean;
  readonly count?: number;
  readonly type?: string;
  readonly sparse?: {
    readonly count?: number;
    readonly indices?: { readonly bufferView?: number; readonly byteOffset?: number; readonly componentType?: number };
    readonly values?: { readonly bufferView?: number; readonly byteOffset?: number };
  };
}

export interface GltfBufferView {
  readonly buffer?: number;
  readonly byteOffset?: number;
  readonly byteLength?: number;
  readonly byteStride?: number;
  readonly extensions?: Readonly<Record<string, MeshoptView | undefined>>;
}

/** A view that is stored compressed. */
export interface MeshoptView {
  readonly buffer?: number;
  readonly byteOffset?: number;
  readonly byteLength?: number;
  readonly byteStride?: number;
  readonly count?: number;
  readonly mode?: string;
  readonly filter?: string;
}
