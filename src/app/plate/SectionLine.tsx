import type { Picture } from '../scene/Painter.tsx';
import type { Line } from '../state/document.ts';
import { toPixels } from './project.ts';

/** A section line on one pane, its ends named, with the place that the profile points at. */
export function SectionLine({ line, picture, at }: { line: Line; picture: Picture; at: number | null }) {
  const sign = picture.mirror ? -1 : 1;
  const [x0, y0] = toPixels(picture.projection, sign * line[0], line[1]);
  const [x1, y1] = toPixels(picture.projection, sign * line[2], line[3]);
  const length = Math.hypot(line[2] - line[0], line[3] - line[1]);
  const part = at === null ? null : Math.min(1, Math.max(0, at / length));
  return (
    <g className="section-line">
      <path className="halo" d={`M${x0} ${y0}L${x1} ${y1}`} />
      <path d={`M${x0} ${y0}L${x1} ${y1}`} />
      <text x={x0} y={y0 - 7} textAnchor="middle">
        A
      </text>
      <text x={x1} y={y1 - 7} textAnchor="middle">
        B
      </text>
      {part !== null && <circle cx={x0 + part * (x1 - x0)} cy={y0 + part * (y1 - y0)} r={4} />}
    </g>
  );
}
