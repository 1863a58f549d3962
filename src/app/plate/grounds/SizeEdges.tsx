import type { Picture } from '../../scene/Painter.tsx';
import { edgeAt } from '../imageEdge.ts';
import { toPixels } from '../project.ts';

/** The edge of a drawn through and b's dashed, their difference enlarged so that it can be seen; by how much is printed. */
export function SizeEdges({ picture, ratio, enlarged }: { picture: Picture; ratio: number; enlarged: number }) {
  const way = (k: number): string => {
    const points = Array.from({ length: 120 }, (_, i) => {
      const a = (i / 120) * 2 * Math.PI;
      const r = 0.93 * k * edgeAt(picture.edge, a);
      const x = r * Math.sin(a);
      return toPixels(picture.projection, picture.mirror ? -x : x, r * Math.cos(a));
    });
    return `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}Z`;
  };
  return (
    <g className="ground-size">
      {[
        ['size-a', way(1)],
        ['size-b', way(1 + (ratio - 1) * enlarged)],
      ].map(([name, d]) => (
        <g key={name}>
          <path className="halo" d={d} />
          <path className={name} d={d} />
        </g>
      ))}
    </g>
  );
}

/** So that the two edges stand some tenth of the seal apart at most; a round number. */
export const sizeEnlargement = (ratio: number): number =>
  [20, 10, 5, 2, 1].find((k) => Math.abs(ratio - 1) * k <= 0.12) ?? 1;
