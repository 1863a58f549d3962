import { useMemo } from 'react';
import type { ComparisonView, FaceView } from '../../workers/browser/protocol.ts';
import type { Picture } from '../scene/Painter.tsx';
import type { Document } from '../state/document.ts';
import { useAtDoor } from '../state/door.ts';
import { useView } from '../state/ground.ts';
import { type Pair, useFace, usePair } from '../state/select.ts';
import { useDocument, useStore } from '../state/store.ts';
import { useTurnDeg } from '../state/upright.ts';
import { plateFromFace } from './frames.ts';
import { extentOf, imageEdge } from './imageEdge.ts';
import { type Pane, panesFor, type Role, type Size } from './panes.ts';
import { mirroredCamera, projectionOf } from './project.ts';

export interface PlateState extends Pair {
  readonly pictures: readonly Picture[];
}

/** What the plate shows now: each pane with its face, where the face lies and how it is projected. */
export function usePlate(size: Size): PlateState {
  const { reference, ...other } = usePair();
  // At the front door one seal stands alone, as it is before the other is there.
  const atDoor = useAtDoor();
  const [subject, comparison] = atDoor ? [] : [other.subject, other.comparison];
  const pair = useMemo(() => ({ reference, subject, comparison }), [reference, subject, comparison]);
  const atFace = useStore((state) => state.step === 'face');
  const faceId = useStore((state) => state.faceId);
  const document = useDocument((d) => d);
  const alone = useFace(faceId ?? document.subjectId ?? document.referenceId);
  const { model } = document;
  const view = useView();
  const rivalTurnDeg = useStore((state) => state.rivalTurnDeg);
  const turnDeg = useTurnDeg(atFace && alone ? alone : undefined);
  const pictures = useMemo(() => {
    const role: Role = alone && alone === pair.reference ? 'reference' : 'subject';
    const inFace = atFace && alone !== undefined;
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
      pictureOf(pane, inFace ? alone : pair[pane.role], pair, { view, model, rivalTurnDeg, turnDeg }, inFace),
    );
  }, [pair, view, model, rivalTurnDeg, turnDeg, atFace, alone, size]);
  return { reference, ...other, pictures };
}

function pictureOf(
  pane: Pane,
  face: FaceView | undefined,
  pair: { reference: FaceView | undefined; subject: FaceView | undefined; comparison: ComparisonView | undefined },
  document: Pick<Document, 'view' | 'model'> & { rivalTurnDeg: number | null; turnDeg: number },
  alone: boolean,
): Picture[] {
  if (!face) return [];
  const comparison = alone ? undefined : pair.comparison;
  // Differences lie on the reference in the impression's sense, whatever the pair shows.
  const engraved = pane.differences ? 'asImpression' : document.view.engraved;
  const laid = {
    model: document.model,
    rivalTurnDeg: document.rivalTurnDeg,
    turnDeg: document.turnDeg,
    view: { ...document.view, engraved } as Document['view'],
  };
  const mirror = face.sense === 'intaglio' && engraved === 'asIs';
  const camera = mirror ? mirroredCamera(document.view.camera) : document.view.camera;
  const place = (role: Role, one: FaceView | undefined) =>
    one ? [{ face: one, lies: plateFromFace(role, one, pair.reference, comparison, laid) }] : [];
  const both = [...place('reference', pair.reference), ...place('subject', pair.subject)];
  const laidTogether = !alone && both.length === 2 && comparison?.fit.found === true;
  const own = alone ? place(pane.role, face) : both.filter((one) => one.face === face);
  const edge = imageEdge(laidTogether ? both : own);
  // Not laid on one another, the two still share one scale.
  const edges = alone || laidTogether ? [edge] : both.map((one) => imageEdge([one]));
  const turnDeg = mirror ? -laid.turnDeg : laid.turnDeg;
  const extents = edges.map((one) => extentOf(one, turnDeg));
  const [width, height] = [0, 1].map((i) => Math.max(...extents.map((extent) => extent[i])));
  return [
    {
      ...{ pane, face, mirror, edge, fades: laidTogether },
      projection: projectionOf(pane, camera, width, height, turnDeg),
      plateFromFace: plateFromFace(pane.role, face, pair.reference, comparison, laid),
    },
  ];
}
