import type { FaceView } from '../../workers/browser/protocol.ts';

/** A place in the reference's face frame on the plate: the engraved face lies turned over. */
export const plateXFromReference = (reference: FaceView | undefined): 1 | -1 =>
  reference?.sense === 'intaglio' ? -1 : 1;
