import type { EdgeInCommon } from '../../../core/condition/index.ts';
import type { Picture } from '../../scene/Painter.tsx';
import { toPixels } from '../project.ts';

interface Props {
  readonly picture: Picture;
  readonly flip: 1 | -1;
  readonly stretches: EdgeInCommon['stretches'];
}

/** The stretches of the edge along which both are broken alike: the same line on both. */
export function BrokenEdge({ picture, flip, stretches }: Props) {
  const across = picture.mirror === (flip === 1) ? -1 : 1;
  const d = stretches.map((way) => {
    const points = Array.from({ length: way.length / 2 }, (_, i) =>
      toPixels(picture.projection, across * way[2 * i], way[2 * i + 1]),
    );
    return `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}`;
  });
  return (
    <g className="ground-edge">
      <path className="halo" d={d.join('')} />
      <path d={d.join('')} />
    </g>
  );
}
