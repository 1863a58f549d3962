import type { Picture } from '../scene/Painter.tsx';
import type { LeftOut } from '../state/document.ts';
import { lampAcross } from '../state/ground.ts';
import { type ShownMark, useMarks } from '../state/marks.ts';
import { getState, setState, useDocument, useStore } from '../state/store.ts';
import { useDrawnWear } from '../state/wear.ts';
import { useGroundMarks } from './grounds/GroundDrawing.tsx';
import { Veil } from './grounds/Veil.tsx';
import { edgeAt } from './imageEdge.ts';
import { toPixels } from './project.ts';

type Px = readonly [number, number];

/**
 * Marks by light: nothing is drawn over what it names. A hairline comes in from outside the relief and ends beside the mark, in a full
 * point where the object carries it and in an empty ring where it does not. Pointing at one dims the rest and turns the lamp across it.
 */
export function Outlines({ picture }: { picture: Picture }) {
  const shown = useDocument((document) => document.view.outlines);
  const selected = useStore((state) => state.selectedMark);
  const pointed = useStore((state) => state.pointedMark);
  const ofGround = useGroundMarks();
  const ground = useStore((state) => state.ground);
  const marks = useMarks();
  const leftOut = useDocument((document) => document.leftOut);
  const worn = useDrawnWear().areas.length > 0;
  const lit = ofGround.length > 0 ? ofGround : [pointed ?? selected].filter((id): id is string => id !== null);
  const drawn = marks.filter(
    ({ id, outline }) => outline.length > 2 && (ground ? ofGround.includes(id) : shown || lit.includes(id)),
  );
  const ways = drawn.filter(({ id }) => lit.includes(id)).map((mark) => widened(pixelsOf(mark.outline, picture)));
  return (
    <g className={worn ? 'outlines behind' : 'outlines'}>
      {ways.length > 0 && <Veil picture={picture} lit={ways.join('')} />}
      {placedLabels(drawn, picture).map(({ mark, label, foot }) => (
        <Leader
          key={mark.id}
          {...{ mark, label, foot }}
          lit={lit.includes(mark.id)}
          carried={carries(mark, picture)}
          onPoint={() => pointAtMark(mark)}
        />
      ))}
      {leftOut.map((region) => (
        <LeftOutRegion key={region.id} region={region} picture={picture} />
      ))}
    </g>
  );
}

export const pixelsOf = (outline: ShownMark['outline'], picture: Picture): Px[] =>
  outline.map(([x, y]) => toPixels(picture.projection, picture.mirror ? -x : x, y));

const wayOf = (points: readonly Px[]): string =>
  `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}Z`;

const middleOf = (points: readonly Px[]): Px => [
  points.reduce((sum, [x]) => sum + x, 0) / points.length,
  points.reduce((sum, [, y]) => sum + y, 0) / points.length,
];

/** The hull about a mark, some way off it, so that it lies in the light with its surroundings. */
export function widened(points: readonly Px[]): string {
  const [mx, my] = middleOf(points);
  const step = (2 * Math.PI) / 32;
  const reaches = Array.from({ length: 32 }, (_, i) => {
    const [c, s] = [Math.cos(i * step), Math.sin(i * step)];
    return Math.max(...points.map(([x, y]) => (x - mx) * c + (y - my) * s)) + 26;
  });
  // Corners of the widened hull: where neighbouring tangents meet.
  return wayOf(
    reaches.map((reach, i) => {
      const next = reaches[(i + 1) % 32];
      const a = i * step;
      const along = (next - reach * Math.cos(step)) / Math.sin(step);
      return [mx + reach * Math.cos(a) - along * Math.sin(a), my + reach * Math.sin(a) + along * Math.cos(a)];
    }),
  );
}

interface Labelled {
  readonly mark: ShownMark;
  readonly label: Px;
  /** The place of the mark nearest to its label. */
  readonly foot: Px;
}

/**
 * Each label outside the image's edge, in the direction of its mark; those too near to one another are moved apart along the edge.
 * `kept`: directions where something else stands, radians clockwise from the top of the picture.
 */
export function placedLabels(marks: readonly ShownMark[], picture: Picture, kept: readonly number[] = []): Labelled[] {
  const { projection, edge, mirror } = picture;
  const centre = toPixels(projection, 0, 0);
  const least = 24;
  const taken: number[] = [...kept];
  const reachAt = (angle: number): number => {
    const turned = angle - (projection.turnDeg * Math.PI) / 180;
    return edgeAt(edge, mirror ? -turned : turned) * projection.pxPerMm + 20;
  };
  return marks
    .map((mark) => {
      const points = pixelsOf(mark.outline, picture);
      const outer = points.reduce((best, at) => (away(at, centre) > away(best, centre) ? at : best));
      return { mark, outer, angle: Math.atan2(outer[0] - centre[0], centre[1] - outer[1]) };
    })
    .sort((a, b) => a.angle - b.angle)
    .map(({ mark, outer, angle }) => {
      let at = angle;
      const step = least / reachAt(angle);
      while (taken.some((other) => Math.abs(((at - other + 3 * Math.PI) % (2 * Math.PI)) - Math.PI) < step))
        at += step / 2;
      taken.push(at);
      const r = reachAt(at);
      return { mark, foot: outer, label: [centre[0] + r * Math.sin(at), centre[1] - r * Math.cos(at)] as const };
    });
}

const away = ([x, y]: Px, [cx, cy]: Px): number => Math.hypot(x - cx, y - cy);

/** Whether the object on this pane carries the mark. */
export function carries({ found }: ShownMark, { pane }: Picture): boolean {
  return !found || found.carriedBy === 'both' || found.carriedBy === pane.role;
}

interface LeaderProps extends Labelled {
  readonly lit: boolean;
  /** Whether the object on this pane carries the mark. */
  readonly carried: boolean;
  onPoint(): void;
}

export function Leader({ mark, label, foot, lit, carried, onPoint }: LeaderProps) {
  const [dx, dy] = [foot[0] - label[0], foot[1] - label[1]];
  const length = Math.max(1, Math.hypot(dx, dy));
  // It ends beside the mark, not on it.
  const end: Px = [foot[0] - (dx / length) * 7, foot[1] - (dy / length) * 7];
  const start: Px = [label[0] + (dx / length) * 9, label[1] + (dy / length) * 9];
  const line = `M${start[0].toFixed(1)} ${start[1].toFixed(1)}L${end[0].toFixed(1)} ${end[1].toFixed(1)}`;
  return (
    <g className={`outline leader${lit ? ' selected' : ''}${carried ? '' : ' absent'}`} onPointerDown={onPoint}>
      <title>{`${mark.label}: ${carried ? 'carried here' : 'not here'}`}</title>
      <path className="halo" d={line} />
      <path d={line} />
      <circle className={carried ? 'carried' : 'lacking'} cx={end[0]} cy={end[1]} r={carried ? 2.6 : 4} />
      <text x={label[0]} y={label[1] + 5} textAnchor="middle">
        {mark.number}
      </text>
    </g>
  );
}

/** Chooses a mark and turns the lamp across it. */
export function pointAtMark(mark: ShownMark | null): void {
  const standIn = mark && mark.outline.length > 2 ? { lamp: lampAcross(mark.outline, getState().turnDeg) } : null;
  setState({ selectedMark: mark?.id ?? null, ground: null, standIn });
}

/** A region that nothing is measured on: crossed out. */
function LeftOutRegion({ region, picture }: { region: LeftOut; picture: Picture }) {
  const points = pixelsOf(region.outline, picture);
  const path = wayOf(points);
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [x, y] = [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
  return (
    <g className="outline left-out">
      <path className="halo" d={path} />
      <path d={path} />
      <text x={x} y={y + 5} textAnchor="middle">
        left out
      </text>
    </g>
  );
}
