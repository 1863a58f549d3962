import { wordsPerFeature } from './code.ts';
import type { FaceIndex, Features } from './types.ts';

/** Changes whenever indices made before cannot be compared with those made now. */
export const indexVersion = 1;

/** Features at most in the two forms, and the bytes that they take. */
export const mostLocal = 1000;
export const mostGlobal = 204;
const headBytes = 8;
const localBytesEach = 4 * wordsPerFeature + 6;
/** Two words of the code, the direction, the size with the way up. */
const globalBytesEach = 10;
export const globalBytes = headBytes + mostGlobal * globalBytesEach;
/** Where the parts of a global form begin. */
export const globalParts = {
  first: headBytes,
  second: headBytes + 4 * mostGlobal,
  angle: headBytes + 8 * mostGlobal,
  size: headBytes + 9 * mostGlobal,
};

/** Sizes on a ladder of twelve steps an octave from 0.01 mm, in seven bits; the eighth tells whether the place stands up. */
const stepsPerOctave = 12;
const leastSigmaMm = 0.01;
export const sizeStep = (sigmaMm: number): number =>
  Math.max(0, Math.min(127, Math.round(stepsPerOctave * Math.log2(sigmaMm / leastSigmaMm))));
const sigmaOf = (step: number): number => leastSigmaMm * 2 ** (step / stepsPerOctave);

/** Directions in 256 steps of the circle. */
export const angleStep = (angle: number): number => Math.round((angle / (2 * Math.PI)) * 256) & 255;
const angleOf = (step: number): number => (step * 2 * Math.PI) / 256;

const mmPerStep = 0.01;
const placeStep = (mm: number): number => Math.max(-32_768, Math.min(32_767, Math.round(mm / mmPerStep)));

/** The two forms of a face's features, little-endian. The first `mostGlobal` are the global form. */
export function packFeatures(features: Features): FaceIndex {
  const count = Math.min(features.count, mostLocal);
  const local = new Uint8Array(headBytes + count * localBytesEach);
  const view = new DataView(local.buffer);
  view.setUint16(0, indexVersion, true);
  view.setUint32(4, count, true);
  const sizeOf = (i: number): number => sizeStep(features.sigma[i]) | (features.up[i] << 7);
  for (let i = 0, at = headBytes; i < count; i++, at += localBytesEach) {
    for (let k = 0; k < wordsPerFeature; k++) view.setUint32(at + 4 * k, features.code[i * wordsPerFeature + k], true);
    const rest = at + 4 * wordsPerFeature;
    view.setInt16(rest, placeStep(features.x[i]), true);
    view.setInt16(rest + 2, placeStep(features.y[i]), true);
    local[rest + 4] = angleStep(features.angle[i]);
    local[rest + 5] = sizeOf(i);
  }
  const global = new Uint8Array(globalBytes);
  const short = new DataView(global.buffer);
  const few = Math.min(count, mostGlobal);
  short.setUint32(4, few, true);
  for (let i = 0; i < few; i++) {
    short.setUint32(globalParts.first + 4 * i, features.code[i * wordsPerFeature], true);
    short.setUint32(globalParts.second + 4 * i, features.code[i * wordsPerFeature + 1], true);
    global[globalParts.angle + i] = angleStep(features.angle[i]);
    global[globalParts.size + i] = sizeOf(i);
  }
  return { version: indexVersion, global, local };
}

/** The features of a local form. Throws a RangeError where the bytes are not one of this version. */
export function unpackFeatures(local: Uint8Array): Features {
  const view = new DataView(local.buffer, local.byteOffset, local.byteLength);
  const count = local.length < headBytes ? -1 : view.getUint32(4, true);
  if (count < 0 || view.getUint16(0, true) !== indexVersion || local.length !== headBytes + count * localBytesEach)
    throw new RangeError('Not the features of a face, or those of another version.');
  const features: Features = {
    count,
    x: new Float32Array(count),
    y: new Float32Array(count),
    sigma: new Float32Array(count),
    angle: new Float32Array(count),
    up: new Uint8Array(count),
    code: new Uint32Array(count * wordsPerFeature),
  };
  for (let i = 0, at = headBytes; i < count; i++, at += localBytesEach) {
    for (let k = 0; k < wordsPerFeature; k++) features.code[i * wordsPerFeature + k] = view.getUint32(at + 4 * k, true);
    const rest = at + 4 * wordsPerFeature;
    features.x[i] = view.getInt16(rest, true) * mmPerStep;
    features.y[i] = view.getInt16(rest + 2, true) * mmPerStep;
    features.angle[i] = angleOf(local[rest + 4]);
    features.sigma[i] = sigmaOf(local[rest + 5] & 127);
    features.up[i] = local[rest + 5] >> 7;
  }
  return features;
}
