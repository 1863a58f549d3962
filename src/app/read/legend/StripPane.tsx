import { type KeyboardEvent, type PointerEvent, useEffect, useRef } from 'react';
import { leidenText } from '../../../core/read/index.ts';
import { useSize } from '../../plate/useSize.ts';
import { faceOfStrip, type RingNow, usePlaces, useRing, useScan, useShown } from '../state/current.ts';
import { penAt, penWithin } from '../state/pen.ts';
import { setRead, useRead } from '../state/readStore.ts';
import { Contributors } from './Contributors.tsx';
import { LegiblePlace } from './LegiblePlace.tsx';
import { Letters, standing } from './Letters.tsx';
import { StripEdges } from './StripEdges.tsx';
import { StripRow } from './StripRow.tsx';
import { type Desk, paste, typed } from './typing.ts';
import { useDesk } from './useDesk.ts';
import {
  alongAtX,
  moveWindow,
  type StripScale,
  usePenInSight,
  useStripScale,
  useStripWheel,
  xOnStrip,
} from './useStripWindow.ts';
import { witnessTones } from './witnessTones.ts';

/** The legend laid out straight, with the reading under it; several fitted objects under one another. */
export function StripPane() {
  const { scan } = useScan();
  const ring = useRing();
  const places = usePlaces();
  const desk = useDesk();
  if (!scan || !ring || !places || !desk) return null;
  return <Laid scanId={scan.id} ring={ring} desk={desk} />;
}

function Laid({ scanId, ring, desk }: { scanId: string; ring: RingNow; desk: Desk }) {
  const element = useRef<HTMLDivElement>(null);
  const size = useSize(element);
  const stacked = useRead((state) => state.stacked);
  const places = usePlaces();
  const { legend } = useScan();
  const scale = useStripScale(places, size.width, stacked);
  const rawPen = useRead((state) => state.pen);
  const { items } = legend.transcription;
  const pen = penWithin(items, ring.ring, rawPen);
  usePenInSight(scale, pen.alongMm);
  useStripWheel(element, scale);
  useBeginning(scanId, ring, desk, items.length === 0 && places !== null);
  const hand = useStripHand(desk, scale);
  const stood = standing(items, ring.ring, desk.advanceMm);
  return (
    <div className="strip-pane">
      {/* biome-ignore lint/a11y/useSemanticElements: letters are written at places on the strip, which no field can show */}
      <div
        ref={element}
        className="strip-desk"
        role="textbox"
        tabIndex={0}
        aria-label="The legend, to be typed along the strip. Letters write; arrow keys go from letter to letter."
        aria-multiline="false"
        onKeyDown={(event) => onKey(event, desk)}
        onPaste={(event) => paste(desk, event.clipboardData.getData('text/plain'))}
        {...hand}
      >
        <span className="unseen">{leidenText(items)}</span>
        {scale && places && (
          <>
            <Rows scale={scale} />
            <svg className="letter-row" width={size.width} height={58} aria-hidden="true">
              <title>The reading</title>
              <Letters {...{ scanId, stood, scale, advanceMm: desk.advanceMm }} penAt={pen.at} top={32} />
            </svg>
            <div className="pen" style={{ left: xOnStrip(scale, pen.alongMm) }} />
          </>
        )}
      </div>
      {scale && places && !stacked && (
        <svg className="strip-edges" width={size.width} height={places.grid.height * places.grid.pitch * scale.pxPerMm}>
          <title>Edges of the legend</title>
          <StripEdges {...{ scanId, places }} now={ring} pxPerMm={scale.pxPerMm} widthPx={size.width} />
        </svg>
      )}
    </div>
  );
}

/** An empty legend begins with the pen at the first letter. */
function useBeginning(scanId: string, ring: RingNow, desk: Desk, empty: boolean): void {
  // biome-ignore lint/correctness/useExhaustiveDependencies: only when another strip is laid out
  useEffect(() => {
    if (empty) setRead({ pen: { at: 0, alongMm: 0.5 * desk.advanceMm } });
  }, [scanId, ring.ring, empty]);
}

function onKey(event: KeyboardEvent, desk: Desk): void {
  if (event.ctrlKey || event.metaKey || event.altKey || event.key === 'Tab') return;
  if (event.key === 'Escape') {
    (event.currentTarget as HTMLElement).blur();
    event.preventDefault();
    return;
  }
  if (typed(desk, event.key, event.shiftKey) || event.key.length === 1) event.preventDefault();
}

/** On the strip: a click sets the pen, a drag moves along, and the place that the hand is on is marked on the face. */
function useStripHand(desk: Desk, scale: StripScale | null) {
  const places = usePlaces();
  const { legend } = useScan();
  const down = useRef<{ x: number; moved: boolean } | null>(null);
  const at = (event: PointerEvent): [number, number] => {
    const box = event.currentTarget.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };
  return {
    onPointerDown(event: PointerEvent) {
      if (event.button === 0) down.current = { x: event.clientX, moved: false };
    },
    onPointerMove(event: PointerEvent) {
      if (!scale || !places) return;
      const [x, y] = at(event);
      const row = y / scale.pxPerMm / places.grid.pitch;
      const column = alongAtX(scale, x) / places.grid.pitch;
      const rowOn = Math.min(places.grid.height - 1, row);
      const [fx, fy] = faceOfStrip(places, column, rowOn);
      setRead({ hovered: { x: fx, y: fy, column, row: rowOn } });
      if (!down.current || event.buttons !== 1) return;
      const by = down.current.x - event.clientX;
      if (!down.current.moved && Math.abs(by) < 4) return;
      down.current = { x: event.clientX, moved: true };
      moveWindow(scale, by);
    },
    onPointerUp(event: PointerEvent) {
      if (down.current && !down.current.moved && scale)
        setRead({ pen: penAt(legend.transcription.items, desk.ring, Math.max(0, alongAtX(scale, at(event)[0]))) });
      down.current = null;
    },
    onPointerLeave() {
      setRead({ hovered: null });
    },
  };
}

/** The strip, or the strips of all that are laid on one another and what they give together. */
function Rows({ scale }: { scale: StripScale }) {
  const stacked = useRead((state) => state.stacked);
  const places = usePlaces();
  const strip = useShown('strip');
  const stack = useShown('stack');
  if (!places) return null;
  if (!stacked)
    return strip ? (
      <StripRow picture={strip.picture} places={places} scale={scale}>
        <LegiblePlace scale={scale} />
        <HoverLine scale={scale} />
      </StripRow>
    ) : null;
  if (!stack) return null;
  const { rows, composite } = stack;
  return (
    <>
      {rows.map(({ name, picture, standing: words }, k) => (
        <StripRow key={name} name={name} note={words} picture={picture} places={places} scale={scale}>
          {!composite.refused && <span className="witness-tone" style={{ background: witnessTones[k % 6] }} />}
          <HoverLine scale={scale} />
        </StripRow>
      ))}
      {composite.refused ? (
        <p className="strip-refused">{composite.reason}</p>
      ) : (
        <StripRow name={composite.caption} picture={composite.picture} places={places} scale={scale}>
          <Contributors composite={composite} scale={scale} places={places} />
          <HoverLine scale={scale} />
        </StripRow>
      )}
    </>
  );
}

/** The place that the hand is on, here or on the face. */
function HoverLine({ scale }: { scale: StripScale }) {
  const hovered = useRead((state) => state.hovered);
  const places = usePlaces();
  if (!places || hovered?.column === null || hovered?.column === undefined) return null;
  const left = xOnStrip(scale, hovered.column * places.grid.pitch);
  const top = (hovered.row ?? 0) * places.grid.pitch * scale.pxPerMm;
  return (
    <>
      <span className="hover-line" style={{ left }} />
      <span className="hover-dot" style={{ left, top }} />
    </>
  );
}
