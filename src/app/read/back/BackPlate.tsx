import { useMemo } from 'react';
import type { FacePicture } from '../../../workers/browser/readingProtocol.ts';
import { FacePlate } from '../face/FacePlate.tsx';
import { useScan, useShown } from '../state/current.ts';

/** The back of the object with relief of 0.3 to 0.8 mm brought out. */
export function BackPlate() {
  const { scan } = useScan();
  const back = useShown('back');
  const picture = useMemo((): FacePicture | null => {
    if (!back) return null;
    const { sharp, pitch, left, top } = back;
    return { ...sharp, turnDeg: 0, pitch, left, top, view: 'asItIs', sense: 'relief' };
  }, [back]);
  return (
    <div className="legend-leaf">
      {picture ? <FacePlate picture={picture} plain /> : <div className="face-plate" />}
      <div className="read-caption">{back && <p>The back of {scan?.title}; relief of 0.3 to 0.8 mm.</p>}</div>
    </div>
  );
}
