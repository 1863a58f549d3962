import { apply, invert, type Similarity } from '../../../core/geometry/index.ts';
import { fromHalf } from '../../../workers/browser/halfFloat.ts';
import type { FaceView, FlatOutline } from '../../../workers/browser/protocol.ts';
import type { Picture } from '../../scene/Painter.tsx';
import { edgeAt } from '../imageEdge.ts';
import { toPixels } from '../project.ts';
import { inside } from './Places.tsx';

const parts = 72;
/** The height of a whole relief as a bar, pixels. */
const wholePx = 26;
/** A part with fewer cells, or with less relief, is not judged. */
const leastCells = 24;
const leastSlope = 0.03;
/** Nor is one of which b has less than this share: what is broken off is not worn. */
const leastShare = 0.5;

/** A face as it lies on the plate. */
export interface LyingFace {
  readonly face: FaceView;
  readonly lies: Similarity;
}

/**
 * How much of a's height b keeps, by direction from the middle: Σ s_a · s_b / Σ |s_a|² over places of the legend in each part, s the slopes of
 * the two as they lie on the plate: letters are steep where the form of the face is not. NaN where too little is there, or b lacks most of it. `legend`: on
 * the reference's face, mm.
 */
export function heightKept(reference: LyingFace, subject: LyingFace, legend: readonly FlatOutline[]): number[] {
  const { picture, sense } = reference.face;
  const flip = sense === 'intaglio' ? -1 : 1;
  const toSubject = invert(subject.lies);
  const sums = Array.from({ length: parts }, () => [0, 0, 0, 0]);
  const step = Math.max(1, Math.round(Math.max(picture.width, picture.height) / 320));
  for (let row = 0; row < picture.height; row += step)
    for (let col = 0; col < picture.width; col += step) {
      const [x, y] = [picture.left + col * picture.pitch, picture.top - row * picture.pitch];
      if (legend.length > 0 && legend.filter((way) => inside(way, x, y)).length % 2 === 0) continue;
      const a = slopeAt(reference, x, y);
      if (!a) continue;
      const sum = sums[Math.floor((Math.atan2(flip * x, y) / (2 * Math.PI) + 1) * parts) % parts];
      sum[3]++;
      const [u, v] = apply(toSubject, [flip * x, y, 0]);
      const b = slopeAt(subject, u, v);
      if (!b) continue;
      sum[0]++;
      sum[1] += a[0] * b[0] + a[1] * b[1];
      sum[2] += a[0] * a[0] + a[1] * a[1];
    }
  return sums.map(([n, ab, aa, all]) =>
    n < Math.max(leastCells, leastShare * all) || aa / n < leastSlope ** 2 ? Number.NaN : ab / aa,
  );
}

/** Slopes on the plate at the nearest cell of a face's own frame; null where nothing is scanned. */
function slopeAt({ face: { picture }, lies }: LyingFace, x: number, y: number): readonly [number, number] | null {
  const col = Math.round((x - picture.left) / picture.pitch);
  const row = Math.round((picture.top - y) / picture.pitch);
  const i = row * picture.width + col;
  if (col < 0 || row < 0 || col >= picture.width || row >= picture.height || picture.mask[2 * i] === 0) return null;
  const normal = [fromHalf(picture.cells[4 * i]), fromHalf(picture.cells[4 * i + 1]), 1] as const;
  const [nx, ny, nz] = apply({ ...lies, scale: 1, translation: [0, 0, 0] }, normal);
  return [nx / nz, ny / nz];
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
