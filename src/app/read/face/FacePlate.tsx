import { useMemo, useRef } from 'react';
import type { Vec2 } from '../../../core/geometry/index.ts';
import type { FaceView } from '../../../workers/browser/protocol.ts';
import type { FacePicture } from '../../../workers/browser/readingProtocol.ts';
import { extentOf, imageEdge } from '../../plate/imageEdge.ts';
import type { Pane, Size } from '../../plate/panes.ts';
import { type Projection, projectionOf, toPixels, toPlate } from '../../plate/project.ts';
import { ScaleBar } from '../../plate/ScaleBar.tsx';
import { useSize } from '../../plate/useSize.ts';
import type { Picture } from '../../scene/Painter.tsx';
import type { ReadLamp as Lamp } from '../../state/readDocument.ts';
import { useDocument } from '../../state/store.ts';
import { faceOfStrip, stripOfFace, useLook, usePlaces, useRing, useScan } from '../state/current.ts';
import { lampOf } from '../state/looks.ts';
import { setRead, useRead } from '../state/readStore.ts';
import { BandLines } from './BandLines.tsx';
import { pictureFromFace, pictureX } from './frame.ts';
import { ReadLamp } from './ReadLamp.tsx';
import { ToneCanvas } from './ToneCanvas.tsx';
import { useFaceHand } from './useFaceHand.ts';

/** The face as the core draws it, large, with the legend's band, the lamp, and the place that the hand is on. */
export function FacePlate({ picture, plain = false }: { picture: FacePicture; plain?: boolean }) {
  const element = useRef<HTMLDivElement>(null);
  const size = useSize(element);
  const { scan, face } = useScan();
  const camera = useRead((state) => state.camera);
  const ring = useRing();
  const moved = useDocument((document) => document.read.lamp);
  const look = useLook('face');
  const own = lampOf(look);
  const lamp: Lamp | null = plain || !own ? null : (moved ?? own);
  const pane = useMemo(() => paneOf(size), [size]);
  const projection = useMemo(
    () =>
      projectionOf(
        pane,
        { ...camera, tipDeg: 0, swingDeg: 0 },
        ...extent(picture, plain ? undefined : face),
        picture.turnDeg,
      ),
    [pane, camera, picture, plain, face],
  );
  const places = usePlaces();
  const point = (x: number, y: number): void => {
    const fx = picture.view === 'asItIs' ? x : -x;
    const on = places && !plain ? stripOfFace(places, fx, y) : null;
    setRead({ hovered: { x: fx, y, column: on?.column ?? null, row: on?.row ?? null } });
  };
  const events = useFaceHand(element, projection, point);
  const toPx = (x: number, y: number): Vec2 => toPixels(projection, x, y);
  const toMm = (px: number, py: number): Vec2 => toPlate(projection, px, py);
  return (
    <div
      ref={element}
      className="face-plate"
      role="application"
      aria-roledescription="plate"
      aria-label="The face under the chosen look. Arrow keys move it, plus and minus enlarge, 0 lays it straight."
      // biome-ignore lint/a11y/noNoninteractiveTabindex: the plate takes the keyboard
      tabIndex={0}
      {...events}
    >
      {size.width > 0 && (
        <>
          <ToneCanvas
            picture={picture}
            label={picture.caption}
            className="face-picture"
            style={boxOf(picture, projection, lamp)}
          />
          <svg className="overlay" width={size.width} height={size.height}>
            <title>Drawn over the face</title>
            {scan && ring && !plain && (
              <>
                <Seen view={picture.view} toPx={toPx} />
                <BandLines scanId={scan.id} now={ring} view={picture.view} toPx={toPx} toMm={toMm} />
              </>
            )}
            <Hovered view={picture.view} toPx={toPx} />
            {face && lamp && <ReadLamp picture={ringed(face, picture, projection, pane)} lamp={lamp} />}
            {face && <ScaleBar picture={ringed(face, picture, projection, pane)} x={14} y={size.height - 10} />}
          </svg>
        </>
      )}
    </div>
  );
}

const paneOf = (size: Size): Pane => ({
  ...{ id: 'read', role: 'reference', x: 0, y: 0, ...size, from: 0, to: size.width, differences: false, within: null },
});

const edgeIn = ({ view }: FacePicture, face: FaceView) => imageEdge([{ face, lies: pictureFromFace(view) }]);

/** What is to fill the pane: the face inside its outline; a back has none. */
const extent = (picture: FacePicture, face: FaceView | undefined): readonly [number, number] =>
  face
    ? extentOf(edgeIn(picture, face), picture.turnDeg)
    : [picture.width * picture.pitch, picture.height * picture.pitch];

/** What the ring of the lamp and the scale bar need to know. */
const ringed = (face: FaceView, picture: FacePicture, projection: Picture['projection'], pane: Pane): Picture => ({
  pane,
  face,
  projection,
  mirror: false,
  plateFromFace: pictureFromFace(picture.view),
  edge: edgeIn(picture, face),
  fades: false,
});

/** The picture was turned before it was lit, so it lies straight here; what is drawn over it is turned. */
function boxOf(
  { width, height, pitch, left, top }: FacePicture,
  { pxPerMm, centreX, centreY, camera, turnDeg }: Projection,
  lamp: Lamp | null,
) {
  const t = (turnDeg * Math.PI) / 180;
  const [cameraX, cameraY] = [
    Math.cos(t) * camera.x + Math.sin(t) * camera.y,
    Math.cos(t) * camera.y - Math.sin(t) * camera.x,
  ];
  const x = centreX + (left - pitch / 2 - cameraX) * pxPerMm;
  const y = centreY - (top + pitch / 2 - cameraY) * pxPerMm;
  const a = ((lamp?.azimuthDeg ?? 315) * Math.PI) / 180;
  const [dx, dy] = [-7 * Math.sin(a), 7 * Math.cos(a)];
  return {
    left: x,
    top: y,
    width: width * pitch * pxPerMm,
    height: height * pitch * pxPerMm,
    filter: `drop-shadow(${dx.toFixed(1)}px ${dy.toFixed(1)}px 6px rgb(var(--shade) / 0.42))`,
  };
}

/** The place that the hand is on, here or on the strip. */
function Hovered({ view, toPx }: { view: FacePicture['view']; toPx: (x: number, y: number) => Vec2 }) {
  const hovered = useRead((state) => state.hovered);
  if (!hovered) return null;
  const [x, y] = toPx(view === 'asItIs' ? hovered.x : -hovered.x, hovered.y);
  return (
    <g className="pointed" transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`}>
      <path className="halo" d="M-11 0H-4M4 0H11M0 -11V-4M0 4V11" />
      <path d="M-11 0H-4M4 0H11M0 -11V-4M0 4V11" />
    </g>
  );
}

/** The part of the ring that the strip below shows. */
function Seen({ view, toPx }: { view: FacePicture['view']; toPx: (x: number, y: number) => Vec2 }) {
  const places = usePlaces();
  const seen = useRead((state) => state.seen);
  if (!places || !seen) return null;
  const { grid, band } = places;
  const row = grid.height / 2;
  const [from, to] = seen.map((mm) => Math.max(0, Math.min(grid.width - 1, mm / grid.pitch)));
  const points: string[] = [];
  for (let k = 0; k <= 60; k++) {
    const [fx, fy] = faceOfStrip(places, from + ((to - from) * k) / 60, row);
    const [x, y] = toPx(pictureX(band.sense === 'intaglio' ? -fx : fx, band.sense, view), fy);
    points.push(`${x.toFixed(1)} ${y.toFixed(1)}`);
  }
  const widthPx = Math.abs(toPx(grid.height * grid.pitch, 0)[0] - toPx(0, 0)[0]);
  return <path className="band-seen" d={`M${points.join('L')}`} strokeWidth={widthPx} />;
}
