import type { KeyboardEvent } from 'react';
import type { Vec2 } from '../../core/geometry/index.ts';
import type { FlatOutline } from '../../workers/browser/protocol.ts';
import { partWords } from '../look/wearWords.ts';
import type { Picture } from '../scene/Painter.tsx';
import { documentNow, useStore } from '../state/store.ts';
import { askWear, type DrawnArea, type DrawnWear, handOnPart } from '../state/wear.ts';
import { toPixels } from './project.ts';
import { hatchOf } from './WearPatterns.tsx';

interface Props {
  readonly picture: Picture;
  readonly wear: DrawnWear;
  /** A place in the reference's face frame on the plate. */
  readonly flip: 1 | -1;
  /** Whether the states of the subject are drawn here, not only where the zones lie. */
  readonly states: boolean;
  /** Whether the keyboard reaches them here. */
  readonly leading: boolean;
}

/** The zone asked for with a dashed outline, and the parts in each state, hatched; a word where the hand is. */
export function WearAreas({ picture, wear, flip, states, leading }: Props) {
  const hand = useStore((state) => state.wornPart);
  const pointed = useStore((state) => state.pointed !== null);
  const way = (outlines: readonly FlatOutline[]): string => pathOf(outlines, picture, flip);
  const under = (area: DrawnArea): boolean =>
    hand?.zone === area.zone && (hand.state === null || hand.state === area.state);
  return (
    <g className="wear-areas">
      {wear.zones.length === 1 &&
        wear.zones.map(({ zone, outlines }) => <path key={zone} className="wear-zone" d={way(outlines)} />)}
      {states &&
        wear.areas.map((area) => (
          <Area
            key={`${area.zone}${area.state}`}
            area={area}
            path={way(area.outlines)}
            under={under(area)}
            named={!pointed}
            at={topOf(area, picture, flip)}
            leading={leading}
          />
        ))}
    </g>
  );
}

function Area(props: { area: DrawnArea; path: string; under: boolean; named: boolean; at: Vec2; leading: boolean }) {
  const { area, path, under, named, at, leading } = props;
  const words = partWords(area);
  const off = (): void => handOnPart(null);
  const on = (): void => handOnPart({ zone: area.zone, state: area.state });
  const onKey = (event: KeyboardEvent): void => {
    if (event.key !== 'Enter') return;
    askWear(documentNow().view.wear === area.zone ? 'whole' : area.zone);
    event.stopPropagation();
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button cannot stand inside a drawing
    <g
      className={`worn ${area.state}${under ? ' under' : ''}`}
      role="button"
      aria-label={`${words}, ${Math.round(area.areaMm2)} square millimetres: enter draws this zone alone, or all again`}
      onKeyDown={onKey}
      tabIndex={leading ? 0 : undefined}
      onPointerEnter={on}
      onPointerLeave={off}
      onFocus={on}
      onBlur={off}
    >
      <path className="halo" fillRule="evenodd" d={path} />
      <path fillRule="evenodd" d={path} style={{ fill: hatchOf(area.state) }} />
      {under && named && (
        <text x={at[0]} y={at[1] - 6} textAnchor="middle">
          {words}
        </text>
      )}
    </g>
  );
}

function pathOf(outlines: readonly FlatOutline[], picture: Picture, flip: 1 | -1): string {
  return outlines.map((way) => rounded(pointsOf(way, picture, flip))).join('');
}

/** The way with the steps of its cells rounded: curves from the middle of one side to the middle of the next. */
function rounded(points: readonly Vec2[]): string {
  const middle = (k: number): Vec2 => {
    const [a, b] = [points[k % points.length], points[(k + 1) % points.length]];
    return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  };
  const bends = points.map((_, k) => `Q${printed(points[(k + 1) % points.length])} ${printed(middle(k + 1))}`);
  return `M${printed(middle(0))}${bends.join('')}Z`;
}

const printed = ([x, y]: Vec2): string => `${x.toFixed(1)} ${y.toFixed(1)}`;

function pointsOf(way: FlatOutline, { projection, mirror }: Picture, flip: 1 | -1): Vec2[] {
  const points: Vec2[] = [];
  for (let i = 0; i < way.length; i += 2) {
    const x = flip * way[i];
    points.push(toPixels(projection, mirror ? -x : x, way[i + 1]));
  }
  return points;
}

/** Top of the longest way round, for the word. */
function topOf({ outlines }: DrawnArea, picture: Picture, flip: 1 | -1): Vec2 {
  const longest = outlines.reduce((best, one) => (one.length > best.length ? one : best));
  const [x, y] = pointsOf(longest, picture, flip).reduce((a, b) => (b[1] < a[1] ? b : a));
  const { pane } = picture;
  // The word stays on the pane.
  return [Math.min(pane.x + pane.width - 70, Math.max(pane.x + 70, x)), Math.max(pane.y + 22, y)];
}
