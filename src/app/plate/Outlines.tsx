import type { Picture } from '../scene/Painter.tsx';
import { type ShownMark, useMarks } from '../state/marks.ts';
import { setState, useDocument, useStore } from '../state/store.ts';
import { toPixels } from './project.ts';

/** The outlines of marks and of the user's own regions on one pane, numbered as in the list. */
export function Outlines({ picture }: { picture: Picture }) {
  const shown = useDocument((document) => document.view.outlines);
  const selected = useStore((state) => state.selectedMark);
  const marks = useMarks();
  if (!shown) return null;
  return (
    <g className="outlines">
      {marks
        .filter((mark) => !mark.excluded && mark.outline.length > 2)
        .map((mark) => (
          <Outline key={mark.id} mark={mark} picture={picture} selected={mark.id === selected} />
        ))}
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
