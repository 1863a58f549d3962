import { useEffect, useMemo } from 'react';
import type { FaceView } from '../../workers/browser/protocol.ts';
import { plateFromFace } from '../plate/frames.ts';
import { extentOf, imageEdge } from '../plate/imageEdge.ts';
import type { Pane, Role, Size } from '../plate/panes.ts';
import { projectionOf } from '../plate/project.ts';
import type { Picture } from '../scene/Painter.tsx';
import type { PlateView } from '../state/document.ts';
import { useView } from '../state/ground.ts';
import { setState } from '../state/store.ts';
import { uprightOfPair } from '../state/upright.ts';
import { panesOf } from './panesOf.ts';
import { useChange } from './state/changeStore.ts';
import { type DatedFaces, useDatedFaces } from './state/useDatedFaces.ts';

export interface DatedPlate {
  /** All that the card holds: a date that is not seen now has no width, so that the leaf turns without loading anything. */
  readonly held: readonly Picture[];
  readonly seen: readonly Picture[];
}

/** What the plate of two dates shows: both upright alike, at one scale, under one camera. */
export function usePictures(size: Size): DatedPlate {
  const { earlier, later, laid } = useDatedFaces();
  const asked = useChange((state) => state.look);
  const onTop = useChange((state) => state.onTop);
  const view = useView();
  const faces = useMemo(() => ({ earlier, later, laid }), [earlier, later, laid]);
  const turnDeg = useMemo(
    () => uprightOfPair({ reference: earlier, subject: later, comparison: laid }).turnDeg,
    [earlier, later, laid],
  );
  useEffect(() => setState({ turnDeg }), [turnDeg]);
  return useMemo(() => {
    // Until it is known how they lie on one another they are seen beside one another.
    const look = laid ? asked : 'pair';
    const panes = panesOf(look, onTop, size).filter(({ role }) => faceOf(role, faces));
    const held = panes.map((pane) => pictureOf(pane, faces, view, turnDeg));
    return { held, seen: held.filter(({ pane }) => pane.to > pane.from) };
  }, [faces, laid, asked, onTop, size, view, turnDeg]);
}

const faceOf = (role: Role, { earlier, later }: DatedFaces): FaceView | undefined =>
  role === 'reference' ? earlier : later;

function pictureOf(pane: Pane, faces: DatedFaces, view: PlateView, turnDeg: number): Picture {
  const { earlier, later, laid } = faces;
  const lies = (role: Role, face: FaceView) =>
    plateFromFace(role, face, earlier, laid, { model: 'chosen', view: { ...view, engraved: 'asImpression' } });
  const face = faceOf(pane.role, faces) as FaceView;
  const own = imageEdge([{ face, lies: lies(pane.role, face) }]);
  const edge = laid && earlier ? imageEdge([{ face: earlier, lies: lies('reference', earlier) }]) : own;
  // Not laid on one another, the two still share one scale.
  const edges = laid
    ? [edge]
    : (['reference', 'subject'] as const).flatMap((role) => {
        const one = role === 'reference' ? earlier : later;
        return one ? [imageEdge([{ face: one, lies: lies(role, one) }])] : [];
      });
  const extents = edges.map((one) => extentOf(one, turnDeg));
  const [width, height] = [0, 1].map((i) => Math.max(...extents.map((extent) => extent[i])));
  return {
    ...{ pane, face, mirror: false, edge, fades: false },
    projection: projectionOf(pane, view.camera, width, height, turnDeg),
    plateFromFace: lies(pane.role, face),
  };
}
