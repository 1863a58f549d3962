import { useMemo } from 'react';
import { type HeightGrid, turnGrid } from '../../core/geometry/index.ts';
import type { FaceView } from '../../workers/browser/protocol.ts';
import { halved } from '../../workers/browser/reliefPicture.ts';
import { thumbnail } from '../../workers/browser/thumbnail.ts';
import { gridOfPicture } from '../saved/grids.ts';
import { usePair } from '../state/select.ts';
import { uprightOf } from '../state/upright.ts';
import { Still } from './NoGraphics.tsx';

/** A small picture of a face that stands as the face does in every room; turned before it is lit. */
export function UprightStill({ face, name }: { face: FaceView; name: string }) {
  const { turnDeg } = uprightOf(face, usePair());
  const onFaceDeg = Math.round(face.sense === 'intaglio' ? -turnDeg : turnDeg);
  const picture = useMemo(
    () => (onFaceDeg % 360 === 0 ? face.thumbnail : thumbnail(turnGrid(small(gridOfPicture(face.picture)), onFaceDeg))),
    [face, onFaceDeg],
  );
  return <Still picture={picture} name={name} />;
}

/** Coarse enough for a small picture. */
const small = (grid: HeightGrid): HeightGrid => (Math.max(grid.width, grid.height) > 360 ? small(halved(grid)) : grid);
