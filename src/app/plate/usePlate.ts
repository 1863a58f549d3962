import { useMemo } from 'react';
import { apply, type Similarity } from '../../core/geometry/index.ts';
import type { ComparisonView, FaceView } from '../../workers/browser/protocol.ts';
import type { Picture } from '../scene/Painter.tsx';
import type { Document } from '../state/document.ts';
import { type Pair, useFace, usePair } from '../state/select.ts';
import { useDocument, useStore } from '../state/store.ts';
import { plateFromFace } from './frames.ts';
import { type Pane, panesFor, type Role, type Size } from './panes.ts';
import { mirroredCamera, projectionOf } from './project.ts';

export interface PlateState extends Pair {
  readonly pictures: readonly Picture[];
}

/** What the plate shows now: each pane with its face, where the face lies and how it is projected. */
export function usePlate(size: Size): PlateState {
  const { reference, subject, comparison } = usePair();
  const pair = useMemo(() => ({ reference, subject, comparison }), [reference, subject, comparison]);
  const step = useStore((state) => state.step);
  const faceId = useStore((state) => state.faceId);
  const document = useDocument((d) => d);
  const alone = useFace(faceId ?? document.subjectId ?? document.referenceId);
  const { view, model } = document;
  const rivalTurnDeg = useStore((state) => state.rivalTurnDeg);
  const pictures = useMemo(() => {
    const role: Role = alone && alone === pair.reference ? 'reference' : 'subject';
    const inFace = step === 'face' && alone !== undefined;
    const panes = panesFor(
      view,
      {
        step: inFace ? 'face' : 'compare',
        faceRole: role,
        hasReference: pair.reference !== undefined,
        hasSubject: pair.subject !== undefined,
        hasDifference: Boolean(pair.comparison?.difference),
      },
      size,
    );
    return panes.flatMap((pane) =>
      pictureOf(pane, inFace ? alone : pair[pane.role], pair, { view, model, rivalTurnDeg }, inFace),
    );
  }, [pair, view, model, rivalTurnDeg, step, alone, size]);
  return { ...pair, pictures };
}

function pictureOf(
  pane: Pane,
  face: FaceView | undefined,
  pair: { reference: FaceView | undefined; subject: FaceView | undefined; comparison: ComparisonView | undefined },
  document: Pick<Document, 'view' | 'model'> & { rivalTurnDeg: number | null },
  alone: boolean,
): Picture[] {
  if (!face) return [];
  const comparison = alone ? undefined : pair.comparison;
  // Differences lie on the reference in the impression's sense, whatever the pair shows.
  const engraved = pane.differences ? 'asImpression' : document.view.engraved;
  const laid = {
    model: document.model,
    rivalTurnDeg: document.rivalTurnDeg,
    view: { ...document.view, engraved } as Document['view'],
  };
  const mirror = face.sense === 'intaglio' && engraved === 'asIs';
  const camera = mirror ? mirroredCamera(document.view.camera) : document.view.camera;
  const place = (role: Role, one: FaceView | undefined) =>
    one ? [{ face: one, lies: plateFromFace(role, one, pair.reference, comparison, laid) }] : [];
  const shown =
    alone || pane.differences
      ? place(pane.role, face)
      : [...place('reference', pair.reference), ...place('subject', pair.subject)];
  const [width, height] = extent(shown);
  return [
    {
      pane,
      face,
      mirror,
      projection: projectionOf(pane, camera, width, height),
      plateFromFace: plateFromFace(pane.role, face, pair.reference, comparison, laid),
    },
  ];
}

/** Width and height about the plate's middle that hold the rims of all faces as they lie, mm. */
function extent(shown: ReadonlyArray<{ face: FaceView; lies: Similarity }>): [number, number] {
  let [x, y] = [1, 1];
  for (const { face, lies } of shown)
    for (let i = 0; i < face.rim.length; i += 2) {
      const at = apply(lies, [face.rim[i], face.rim[i + 1], 0]);
      x = Math.max(x, Math.abs(at[0]));
      y = Math.max(y, Math.abs(at[1]));
    }
  return [2 * x, 2 * y];
}
