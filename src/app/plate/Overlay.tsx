import type { Picture } from '../scene/Painter.tsx';
import { useAtDoor } from '../state/door.ts';
import { useView } from '../state/ground.ts';
import { plateXFromReference } from '../state/onPlate.ts';
import { useDocument, useStore } from '../state/store.ts';
import { useUnnamed } from '../state/unnamed.ts';
import { useDrawnWear } from '../state/wear.ts';
import { GroundDrawing } from './grounds/GroundDrawing.tsx';
import { LampRing } from './LampRing.tsx';
import { LandmarkMarks } from './LandmarkMarks.tsx';
import { cutWay, OutlineCut } from './OutlineCut.tsx';
import { Outlines } from './Outlines.tsx';
import { PlaceMarks } from './PlaceMarks.tsx';
import { Pointed } from './Pointed.tsx';
import type { Size } from './panes.ts';
import { toPixels } from './project.ts';
import { ScaleBar } from './ScaleBar.tsx';
import { SectionLine } from './SectionLine.tsx';
import { UprightDial } from './UprightDial.tsx';
import type { Stroke } from './useDrawing.ts';
import type { PlateState } from './usePlate.ts';
import { WearAreas } from './WearAreas.tsx';
import { WearPatterns } from './WearPatterns.tsx';

/** What is drawn over the seals: lamp, outlines, section, divider, scale bar, the place pointed at. */
export function Overlay({ plate, size, stroke }: { plate: PlateState; size: Size; stroke: Stroke | null }) {
  const { look, section, divider } = useView();
  const step = useStore((state) => state.step);
  const hasPairs = useDocument((document) => document.pairs.length > 0);
  const profileAt = useStore((state) => state.profileAt);
  const { pictures } = plate;
  const alone = step === 'face';
  // While places or landmarks are put by hand, only those are drawn over the seals.
  const marking = useStore((state) => state.step === 'fit' && (state.hand === 'pairs' || hasPairs));
  const placing = useStore((state) => state.hand === 'landmarks');
  const flip = plateXFromReference(plate.reference);
  const atDoor = useAtDoor();
  const unnamed = useUnnamed();
  const marks = !alone && !marking && !placing && !atDoor && !unnamed;
  const over = !alone && look === 'over' && pictures.length === 2;
  // One over the other, the ring runs round the larger of the two.
  const ringed = over ? [...pictures].sort((a, b) => reachOf(b) - reachOf(a)).slice(0, 1) : pictures;
  const first = pictures[0];
  const wear = useDrawnWear();
  const ofSubject = ({ pane }: Picture): boolean => pictures.length < 2 || pane.differences || pane.role === 'subject';
  const leading = pictures.find(ofSubject);
  return (
    <svg className="overlay" width={size.width} height={size.height} aria-hidden={pictures.length === 0}>
      <title>Drawn over the seals</title>
      <defs>
        <WearPatterns />
        {pictures.map((picture) => (
          <clipPath key={picture.pane.id} id={`pane-${picture.pane.id}`}>
            <path clipRule="evenodd" d={paneWay(picture, over ? divider : null)} />
          </clipPath>
        ))}
      </defs>
      {pictures.map((picture) => (
        <g key={picture.pane.id} clipPath={`url(#pane-${picture.pane.id})`}>
          {marks && <Outlines picture={picture} />}
          {marks && (
            <WearAreas
              picture={picture}
              wear={wear}
              flip={flip}
              states={ofSubject(picture)}
              leading={picture === leading}
            />
          )}
          {marks && <GroundDrawing picture={picture} plate={plate} flip={flip} />}
          {!alone && section && <SectionLine line={section} picture={picture} at={profileAt} />}
          {placing && !alone && <LandmarkMarks picture={picture} flip={flip} />}
          {step === 'fit' && !picture.pane.differences && <PlaceMarks picture={picture} />}
          {stroke && <Drawn stroke={stroke} picture={picture} />}
        </g>
      ))}
      <Pointed
        pictures={pictures}
        comparison={alone || marking || placing || atDoor || unnamed ? undefined : plate.comparison}
      />
      {alone && first && <UprightDial picture={first} />}
      {!alone && ringed.map((picture, i) => <LampRing key={picture.pane.id} picture={picture} leading={i === 0} />)}
      {over && first && <OutlineCut picture={first} />}
      {first && <ScaleBar picture={first} x={20} y={size.height - 16} />}
    </svg>
  );
}

/** The part of the plate that a pane paints: one over the other, a within the cut and b around it. */
function paneWay(picture: Picture, cut: number | null): string {
  const { x, y, width, height, within } = picture.pane;
  const whole = `M${x} ${y}h${width}v${height}h${-width}Z`;
  if (cut === null) return whole;
  return within === null ? `${whole}${cutWay(picture, cut)}` : cutWay(picture, cut);
}

function Drawn({ stroke, picture }: { stroke: Stroke; picture: Picture }) {
  const points = stroke.points.map(([x, y]) => toPixels(picture.projection, picture.mirror ? -x : x, y));
  return <path className="drawn" d={`M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}`} />;
}

const reachOf = ({ face }: Picture): number => Math.max(face.outline.widthMm, face.outline.heightMm);
