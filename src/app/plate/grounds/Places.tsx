import type { Vec2 } from '../../../core/geometry/index.ts';
import {
  type Constellation,
  constellationDefaults,
  isOutside,
  type PlacedLandmark,
} from '../../../core/judge/index.ts';
import type { Picture } from '../../scene/Painter.tsx';
import type { DrawnArea } from '../../state/wear.ts';
import { toPixels } from '../project.ts';

interface Props {
  readonly picture: Picture;
  readonly flip: 1 | -1;
  readonly constellation: Constellation;
  /** Parts of the subject on which nothing lies where it lay. */
  readonly changed: readonly DrawnArea[];
  readonly enlarged: number;
}

const round = [5, 10, 20, 50, 100, 200, 500, 1000, 2000];

/**
 * A shift of so much is drawn at full length at least, mm: by about so much a hand misses that cuts a design again. Where all places agree the
 * arrows stay short; drawn as long as those of another matrix, they would look like disagreement.
 */
const handMissMm = 0.15;

/** How much the shifts are enlarged: so that nine of ten, and one of a copying hand, are shorter than 34 pixels; a round number. */
export function enlargementOf({ landmarks }: Constellation, pxPerMm: number): number {
  const lengths = landmarks.map(({ aloneSmooth: [x, y] }) => Math.hypot(x, y)).sort((a, b) => a - b);
  const most = 34 / (pxPerMm * Math.max(handMissMm, lengths[Math.floor(0.9 * lengths.length)] ?? 0));
  return [...round].reverse().find((one) => one <= most) ?? round[0];
}

/**
 * Every place on both: on a where it is, on b an arrow to where it went beyond what its neighbours did, with its error drawn to the
 * same enlargement. Thin and dark within the error, red outside it, grey on ground that is not sharp.
 */
export function Places({ picture, flip, constellation, changed, enlarged }: Props) {
  const across = picture.mirror === (flip === 1) ? -1 : 1;
  const at = (x: number, y: number): Vec2 => toPixels(picture.projection, across * x, y);
  const arrows = picture.pane.role === 'subject';
  return (
    <g className="ground-places">
      {constellation.landmarks.map((one) => (
        <Place
          key={`${one.x} ${one.y}`}
          one={one}
          at={at}
          across={across}
          enlargedPx={enlarged * picture.projection.pxPerMm}
          arrow={arrows}
          turnDeg={picture.projection.turnDeg}
          soft={changed.some(({ outlines }) => outlines.some((way) => inside(way, one.x, one.y)))}
        />
      ))}
      {constellation.unseen.map(({ x, y }) => {
        const [px, py] = at(x, y);
        return <circle key={`${x} ${y}`} className="place-missing" cx={px} cy={py} r={5} />;
      })}
    </g>
  );
}

interface PlaceProps {
  readonly one: PlacedLandmark;
  at(x: number, y: number): Vec2;
  readonly across: 1 | -1;
  readonly enlargedPx: number;
  readonly arrow: boolean;
  readonly turnDeg: number;
  readonly soft: boolean;
}

function Place({ one, at, across, enlargedPx, arrow, turnDeg, soft }: PlaceProps) {
  const [x, y] = at(one.x, one.y);
  const off = isOutside(one.aloneSmooth, one, constellationDefaults.flowMm);
  const kind = `place-shift${off ? ' off' : ''}${soft ? ' soft' : ''}`;
  if (!arrow) return <circle className={kind} cx={x} cy={y} r={3} />;
  const [dx, dy] = one.aloneSmooth;
  const t = (turnDeg * Math.PI) / 180;
  const [right, up] = [across * dx * Math.cos(t) + dy * Math.sin(t), dy * Math.cos(t) - across * dx * Math.sin(t)];
  const [ex, ey] = [right * enlargedPx, -up * enlargedPx];
  const most = 70;
  const k = Math.min(1, most / Math.max(1e-6, Math.hypot(ex, ey)));
  const { majorMm, minorMm, deg } = one.ellipse;
  const flow = 2.448 * constellationDefaults.flowMm;
  const [rx, ry] = [majorMm, minorMm].map((half) => Math.min(most, Math.hypot(half, flow) * enlargedPx));
  const [a, b] = [Math.atan2(ey, ex), 5];
  const [tx, ty] = [ex * k, ey * k];
  const barb = (side: number): string =>
    `${(tx - b * Math.cos(a + side)).toFixed(1)} ${(ty - b * Math.sin(a + side)).toFixed(1)}`;
  const way = `M0 0L${tx.toFixed(1)} ${ty.toFixed(1)}${Math.hypot(tx, ty) > 4 ? `M${barb(0.5)}L${tx.toFixed(1)} ${ty.toFixed(1)}L${barb(-0.5)}` : ''}`;
  return (
    <g className={kind} transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`}>
      <title>{`${Math.round(1000 * Math.hypot(dx, dy))} µm${off ? ', outside its error' : ''}${soft ? ', on ground that is not sharp' : ''}`}</title>
      <ellipse rx={rx} ry={ry} transform={`rotate(${(-across * deg + turnDeg).toFixed(1)})`} />
      <path className="halo" d={way} />
      <path d={way} />
      <circle r={3} />
    </g>
  );
}

/** Whether a place lies in a closed way, x and y pairs: crossings of a ray. */
export function inside(way: ArrayLike<number>, x: number, y: number): boolean {
  let within = false;
  for (let i = 0, j = way.length - 2; i < way.length; j = i, i += 2) {
    const [ax, ay, bx, by] = [way[i], way[i + 1], way[j], way[j + 1]];
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) within = !within;
  }
  return within;
}
