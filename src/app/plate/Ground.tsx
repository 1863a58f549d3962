import { apply } from '../../core/geometry/index.ts';
import type { Picture } from '../scene/Painter.tsx';
import { useDocument } from '../state/store.ts';
import type { Size } from './panes.ts';
import { toPixels } from './project.ts';

/** The soft shadow that each seal throws on the paper, away from the lamp. It says where the light is; nothing is read from it. */
export function Ground({ pictures, size }: { pictures: readonly Picture[]; size: Size }) {
  const { azimuthDeg, heightDeg } = useDocument((document) => document.view.lamp);
  const a = (azimuthDeg * Math.PI) / 180;
  const reach = 3 + 9 * Math.cos((heightDeg * Math.PI) / 180);
  const apart = pictures.length > 1 && pictures[0].pane.x === pictures[1].pane.x ? pictures.slice(0, 1) : pictures;
  return (
    <svg className="ground" width={size.width} height={size.height} aria-hidden="true">
      <title>Shadows on the paper</title>
      <defs>
        <pattern id="hatched" width={7} height={7} patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line y2={7} />
        </pattern>
      </defs>
      {apart.map((picture) => (
        <svg key={picture.pane.id} {...boxOf(picture, apart.length > 1)}>
          <title>Shadow on the paper</title>
          <path
            className="cast"
            d={rimPath(picture)}
            transform={`translate(${-reach * Math.sin(a)} ${reach * Math.cos(a)})`}
          />
          {picture.pane.differences && <path className="hatched" d={rimPath(picture)} />}
        </svg>
      ))}
    </svg>
  );
}

/** Side by side, each shadow is cut at its pane. */
function boxOf({ pane }: Picture, cut: boolean) {
  const { x, y, width, height } = pane;
  return cut ? { x, y, width, height, viewBox: `${x} ${y} ${width} ${height}` } : {};
}

function rimPath({ face, plateFromFace, projection }: Picture): string {
  const { rim } = face;
  const points: string[] = [];
  for (let i = 0; i < rim.length; i += 2) {
    const [x, y, z] = apply(plateFromFace, [rim[i], rim[i + 1], 0]);
    const [px, py] = toPixels(projection, x, y, z);
    points.push(`${px.toFixed(1)} ${py.toFixed(1)}`);
  }
  return points.length > 2 ? `M${points.join('L')}Z` : '';
}
