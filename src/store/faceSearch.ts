import { findCandidates, indexFace, indexVersion } from '../core/collection/index.ts';
import type { FaceSearch } from './search.ts';

/** The index of the core. */
export const faceSearch: FaceSearch = { version: indexVersion, index: indexFace, find: findCandidates };
