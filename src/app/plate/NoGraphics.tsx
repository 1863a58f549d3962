import { type RefObject, useEffect, useRef } from 'react';
import type { Thumbnail } from '../../workers/browser/thumbnail.ts';
import type { Picture } from '../scene/Painter.tsx';

/** Without WebGL: the seals as still pictures under the default lamp, and a sentence that says so. */
export function NoGraphics({
  pictures,
  element,
}: {
  pictures: readonly Picture[];
  element: RefObject<HTMLDivElement | null>;
}) {
  return (
    <div ref={element} className="plate no-graphics">
      <p role="status">
        This browser gives the page no WebGL, so the lamp cannot be moved and the seals are still pictures. The fit, the
        measurements and the finding are the same; another browser, or hardware acceleration switched on, brings the
        lamp back.
      </p>
      <div className="stills">
        {pictures.map((picture) => (
          <Still key={picture.pane.id} picture={picture.face.thumbnail} name={picture.face.name} />
        ))}
      </div>
    </div>
  );
}

/** A small picture of a face. */
export function Still({ picture, name }: { picture: Thumbnail; name: string }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const pen = canvas.current?.getContext('2d');
    pen?.putImageData(new ImageData(picture.rgba, picture.width, picture.height), 0, 0);
  }, [picture]);
  return (
    <canvas ref={canvas} className="still" width={picture.width} height={picture.height} role="img" aria-label={name} />
  );
}
