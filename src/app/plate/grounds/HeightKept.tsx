import { sampleGrid } from '../../../core/geometry/index.ts';
import { fromHalf } from '../../../workers/browser/halfFloat.ts';
import type { ComparisonView, FaceView, FlatOutline } from '../../../workers/browser/protocol.ts';
import type { Picture } from '../../scene/Painter.tsx';
import { edgeAt } from '../imageEdge.ts';
import { toPixels } from '../project.ts';
import { inside } from './Places.tsx';

const parts = 72;
/** The height of a whole relief as a bar, pixels. */
const wholePx = 26;
/** A part with fewer cells is not judged. */
const leastCells = 24;

/**
 * How much of a's height b keeps, by direction from the middle: 1 + cov(d, z) / var(z) over the cells of the legend in each part, z the
 * reference's height in the impression's sense and d the depth difference, which is measured along the same way. NaN where too little is there.
 */
export function heightKept(
  difference: NonNullable<ComparisonView['difference']>,
  reference: FaceView,
  legend: readonly FlatOutline[],
): number[] {
  const { picture, sense } = reference;
  const flip = sense === 'intaglio' ? -1 : 1;
  const sums = Array.from({ length: parts }, () => [0, 0, 0, 0, 0]);
  const step = Math.max(1, Math.round(Math.max(picture.width, picture.height) / 320));
  for (let row = 0; row < picture.height; row += step)
    for (let col = 0; col < picture.width; col += step) {
      const i = row * picture.width + col;
      if (picture.mask[2 * i] === 0) continue;
      const [x, y] = [picture.left + col * picture.pitch, picture.top - row * picture.pitch];
      if (legend.length > 0 && legend.filter((way) => inside(way, x, y)).length % 2 === 0) continue;
      const d = sampleGrid(difference.map, flip * x, y);
      if (Number.isNaN(d)) continue;
      const z = flip * fromHalf(picture.cells[4 * i + 3]);
      const part = Math.floor((Math.atan2(flip * x, y) / (2 * Math.PI) + 1) * parts) % parts;
      const sum = sums[part];
      sum[0]++;
      sum[1] += z;
      sum[2] += d;
      sum[3] += z * z;
      sum[4] += z * d;
    }
  return sums.map(([n, z, d, zz, zd]) => {
    const spread = zz / n - (z / n) ** 2;
    return n < leastCells || spread < 1e-4 ? Number.NaN : 1 + (zd / n - (z / n) * (d / n)) / spread;
  });
}

/** Bars round the seal: as long as the height that is kept, against a ring at the whole of it; none where it is not known. */
export function HeightKept({ picture, kept }: { picture: Picture; kept: readonly number[] }) {
  const { projection, edge, mirror } = picture;
  const ring = (share: number): string => {
    const points = Array.from({ length: 144 }, (_, i) => placed((i / 144) * 2 * Math.PI, share));
    return `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}Z`;
  };
  const placed = (angle: number, share: number) => {
    const r = edgeAt(edge, angle) * 1.01 + (share * wholePx) / projection.pxPerMm;
    const x = r * Math.sin(angle);
    return toPixels(projection, mirror ? -x : x, r * Math.cos(angle));
  };
  return (
    <g className="ground-kept">
      <path className="kept-ring" d={ring(0)} />
      <path className="kept-ring whole" d={ring(1)} />
      {kept.map((share, i) => {
        if (Number.isNaN(share)) return null;
        const a = ((i + 0.5) / parts) * 2 * Math.PI;
        const [[x0, y0], [x1, y1]] = [placed(a, 0), placed(a, Math.min(1.4, Math.max(0.02, share)))];
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: a part is its direction
          <line key={i} x1={x0} y1={y0} x2={x1} y2={y1} className={share < 0.75 ? 'kept low' : 'kept'}>
            <title>{`${Math.round(100 * share)} % kept`}</title>
          </line>
        );
      })}
    </g>
  );
}
