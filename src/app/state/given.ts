import type { Vec2 } from '../../core/geometry/index.ts';
import type { Given } from '../../core/pipeline.ts';
import type { FaceView } from '../../workers/browser/protocol.ts';
import type { Keyed } from '../jobs/progress.ts';
import type { Document } from './document.ts';

/** What the user put by hand, as the core takes it: outlines from the plate to the reference's face frame. */
export function givenIn({ start, leftOut, landmarks }: Document, reference: Keyed<FaceView> | undefined): Given {
  const flip = reference?.at === 'ready' && reference.value.sense === 'intaglio' ? -1 : 1;
  const excluded = leftOut.map(({ outline, label, why, by }) => ({
    outline: outline.map(([x, y]): Vec2 => [flip * x, y]),
    why: why || label,
    by,
  }));
  return {
    ...(start && { start }),
    ...(excluded.length > 0 && { excluded }),
    ...(landmarks && { landmarks: landmarks.map(([x, y]) => ({ x, y })) }),
  };
}
