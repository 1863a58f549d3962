import { apply } from '../../core/geometry/index.ts';
import type { Picture } from '../scene/Painter.tsx';
import { useView } from '../state/ground.ts';
import { edgeAt } from './imageEdge.ts';
import type { Size } from './panes.ts';
import { toPixels } from './project.ts';

/** The soft shadow that each seal throws on the paper, away from the lamp. It says where the light is; nothing is read from it. */
export function Ground({ pictures, size }: { pictures: readonly Picture[]; size: Size }) {
  const { azimuthDeg, heightDeg } = useView().lamp;
  const a = (azimuthDeg * Math.PI) / 180;
  const reach = 3 + 9 * Math.cos((heightDeg * Math.PI) / 180);
  const apart = pictures.length > 1 && pictures[0].pane.x === pictures[1].pane.x ? pictures.slice(0, 1) : pictures;
  const [x, y] = [-reach * Math.sin(a), reach * Math.cos(a)];
  return (
    <div className="ground" aria-hidden="true">
      {apart.map((picture) => (
        <div key={picture.pane.id} className="ground-pane" style={boxOf(picture, size, apart.length > 1)}>
          {/* Moved as a whole layer: a blurred edge painted anew for each place of the lamp would cost more than the light. */}
          <svg
            className="cast"
            {...drawn(picture, size, apart.length > 1)}
            style={{ transform: `translate(${x}px, ${y}px)` }}
          >
            <title>Shadow on the paper</title>
            <path d={rimPath(picture)} />
          </svg>
          {(picture.pane.within === null || apart.length > 1) && (
            <svg {...drawn(picture, size, apart.length > 1)}>
              <title>No data</title>
              <defs>
                <pattern id="hatched" width={7} height={7} patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
                  <line y2={7} />
                </pattern>
              </defs>
              <path className="hatched" d={rimPath(picture, 0.975)} />
            </svg>
          )}
        </div>
      ))}
    </div>
  );
}

/** Side by side, each shadow is cut at its pane. */
function boxOf({ pane }: Picture, size: Size, cut: boolean) {
  return cut
    ? { left: pane.x, top: pane.y, width: pane.width, height: pane.height }
    : { left: 0, top: 0, width: size.width, height: size.height };
}

/** A drawing in the plate's pixels that fills its box. */
function drawn({ pane }: Picture, size: Size, cut: boolean) {
  const { x, y, width, height } = cut ? pane : { x: 0, y: 0, ...size };
  return { width, height, viewBox: `${x} ${y} ${width} ${height}` };
}

/** The rim of what is seen: wax that fades away throws no shadow beyond the image. */
function rimPath({ face, plateFromFace, projection, edge, fades }: Picture, share = 1): string {
  const { rim } = face;
  const points: string[] = [];
  for (let i = 0; i < rim.length; i += 2) {
    const [x, y, z] = apply(plateFromFace, [rim[i], rim[i + 1], 0]);
    const most = fades ? 1.03 * edgeAt(edge, Math.atan2(x, y)) : Number.POSITIVE_INFINITY;
    const k = share * Math.min(1, most / Math.max(1e-6, Math.hypot(x, y)));
    const [px, py] = toPixels(projection, k * x, k * y, z);
    points.push(`${px.toFixed(1)} ${py.toFixed(1)}`);
  }
  return points.length > 2 ? `M${points.join('L')}Z` : '';
}
