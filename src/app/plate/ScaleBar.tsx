import type { Picture } from '../scene/Painter.tsx';
import { scaleBarMm } from './project.ts';

/** A bar of a round length in millimetres; the same for every pane, since they share one camera. */
export function ScaleBar({ picture, x, y }: { picture: Picture; x: number; y: number }) {
  const { pxPerMm } = picture.projection;
  const mm = scaleBarMm(pxPerMm, 130);
  const width = mm * pxPerMm;
  return (
    <g className="scale-bar" transform={`translate(${x} ${y})`}>
      <path d={`M0 -5V0H${width}V-5`} />
      <text x={width / 2} y={-7} textAnchor="middle">
        {mm} mm
      </text>
    </g>
  );
}
