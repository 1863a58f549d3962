import { useEffect, useRef } from 'react';
import type { CompositeView, StripPlaces } from '../../../workers/browser/readingProtocol.ts';
import { rgb } from '../../look/rgb.ts';
import { type StripScale, xOnStrip } from './useStripWindow.ts';
import { witnessTones } from './witnessTones.ts';

type Composite = Extract<CompositeView, { refused: false }>;

/** Who gives most at each place of a composite: a narrow map in the witnesses' tones along its foot. */
export function Contributors(props: { composite: Composite; places: StripPlaces; scale: StripScale }) {
  const { composite, places, scale } = props;
  const canvas = useRef<HTMLCanvasElement>(null);
  const { grid } = places;
  useEffect(() => {
    const element = canvas.current;
    if (!element) return;
    element.width = grid.width;
    element.height = grid.height;
    const image = new ImageData(grid.width, grid.height);
    const tones = witnessTones.map((tone) => rgb(tone).map((part) => part * 255));
    for (let i = 0; i < composite.contributor.length; i++) {
      const who = composite.contributor[i];
      if (who !== 255) image.data.set([...tones[who % tones.length], 255], 4 * i);
    }
    element.getContext('2d')?.putImageData(image, 0, 0);
  }, [composite, grid]);
  return (
    <div className="contributors">
      <canvas
        ref={canvas}
        role="img"
        aria-label={`Who gives most at each place. ${composite.caption}`}
        style={{ left: xOnStrip(scale, 0), width: grid.width * grid.pitch * scale.pxPerMm }}
      />
    </div>
  );
}
