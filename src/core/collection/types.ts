/**
 * What is kept of one prepared face for search. `global`: `globalBytes` bytes in memory, scanned plainly; `local`: features with their
 * places, on disk, for geometric agreement. Turn-, scale- and sense-free: heights are brought to the impression's sense as the face
 * states it, and a search tries both.
 */
export interface FaceIndex {
  readonly version: number;
  readonly global: Uint8Array;
  readonly local: Uint8Array;
}

/** Features of one face, structure of arrays; frame: the face's own, in the impression's sense, mm. */
export interface Features {
  readonly count: number;
  readonly x: Float32Array;
  readonly y: Float32Array;
  /** Standard deviation of the Gaussian at which the place stands out, mm. */
  readonly sigma: Float32Array;
  /** Direction of the steepest rise, radians counter-clockwise from x. */
  readonly angle: Float32Array;
  /** 1 where the relief stands up at the place, 0 where it goes down. */
  readonly up: Uint8Array;
  /** `bitsPerFeature` bits a feature, as 32-bit words. */
  readonly code: Uint32Array;
}
