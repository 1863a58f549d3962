import { useMemo } from 'react';
import type { FaceView } from '../../workers/browser/protocol.ts';
import { type Thumbnail, turnedThumbnail } from '../../workers/browser/thumbnail.ts';
import { usePair } from '../state/select.ts';
import { uprightOf } from '../state/upright.ts';
import { Still } from './NoGraphics.tsx';

/** A small picture of a face that stands as the face does in every room; turned before it is lit. */
export function UprightStill({ face, name }: { face: FaceView; name: string }) {
  const { turnDeg } = uprightOf(face, usePair());
  const picture = useMemo(() => standing(face, turnDeg), [face, turnDeg]);
  return <Still picture={picture} name={name} />;
}

/** Turned by the worker that read it where it stands as was seen there. */
function standing(face: FaceView, turnDeg: number): Thumbnail {
  const deg = onFace(face, turnDeg);
  if (deg % 360 === 0) return face.thumbnail;
  const known = face.upright && onFace(face, face.upright.turnDeg) === deg ? face.uprightThumbnail : undefined;
  return known ?? turnedThumbnail(face.thumbnail, deg);
}

const onFace = ({ sense }: FaceView, turnDeg: number): number => Math.round(sense === 'intaglio' ? -turnDeg : turnDeg);
