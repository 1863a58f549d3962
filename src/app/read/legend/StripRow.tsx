import type { ReactNode } from 'react';
import type { GreyPicture, StripPlaces } from '../../../workers/browser/readingProtocol.ts';
import { ToneCanvas } from '../face/ToneCanvas.tsx';
import { type StripScale, xOnStrip } from './useStripWindow.ts';

interface StripRowProps {
  readonly name?: string;
  readonly note?: string;
  readonly picture: GreyPicture;
  readonly places: StripPlaces;
  readonly scale: StripScale;
  readonly children?: ReactNode;
}

/** One strip in its window. */
export function StripRow({ name, note, picture, places, scale, children }: StripRowProps) {
  const { grid } = places;
  return (
    <figure className="strip-row">
      <div className="strip-window" style={{ height: grid.height * grid.pitch * scale.pxPerMm }}>
        <ToneCanvas
          picture={picture}
          label={`${name ?? 'Legend strip'}. ${picture.caption}`}
          className="strip-picture"
          style={{
            left: xOnStrip(scale, 0),
            width: grid.width * grid.pitch * scale.pxPerMm,
            height: grid.height * grid.pitch * scale.pxPerMm,
          }}
        />
        {children}
      </div>
      {name && (
        <figcaption>
          {name}
          {note && <span className="soft">, {note}</span>}
        </figcaption>
      )}
    </figure>
  );
}
