import type { Picture } from '../scene/Painter.tsx';
import type { LeftOut } from '../state/document.ts';
import { type ShownMark, useMarks } from '../state/marks.ts';
import { setState, useDocument, useStore } from '../state/store.ts';
import { useDrawnWear } from '../state/wear.ts';
import { toPixels } from './project.ts';

/** The outlines of marks and of the user's own regions on one pane, numbered as in the list. */
export function Outlines({ picture }: { picture: Picture }) {
  const shown = useDocument((document) => document.view.outlines);
  const selected = useStore((state) => state.selectedMark);
  const marks = useMarks();
  const leftOut = useDocument((document) => document.leftOut);
  const worn = useDrawnWear().areas.length > 0;
  if (!shown) return null;
  return (
    <g className={worn ? 'outlines behind' : 'outlines'}>
      {marks
        .filter((mark) => mark.outline.length > 2)
        .map((mark) => (
          <Outline key={mark.id} mark={mark} picture={picture} selected={mark.id === selected} />
        ))}
      {leftOut.map((region) => (
        <LeftOutRegion key={region.id} region={region} picture={picture} />
      ))}
    </g>
  );
}

/** A region that nothing is measured on: crossed out. */
function LeftOutRegion({ region, picture }: { region: LeftOut; picture: Picture }) {
  const points = region.outline.map(([x, y]) => toPixels(picture.projection, picture.mirror ? -x : x, y));
  const path = `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}Z`;
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

function Outline(props: { mark: ShownMark; picture: Picture; selected: boolean }) {
  const { mark, picture, selected } = props;
  const points = mark.outline.map(([x, y]) => toPixels(picture.projection, picture.mirror ? -x : x, y));
  const path = `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}Z`;
  const top = points.reduce((a, b) => (b[1] < a[1] ? b : a));
  return (
    <g className={selected ? 'outline selected' : 'outline'} onPointerDown={() => setState({ selectedMark: mark.id })}>
      <path className="halo" d={path} />
      <path className={mark.own ? 'own' : undefined} d={path} />
      <text x={top[0]} y={top[1] - 5} textAnchor="middle">
        {mark.number}
      </text>
    </g>
  );
}
