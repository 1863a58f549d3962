import type { WearZone } from '../../../src/core/condition/types.ts';
import { type WearMap, wearLabel } from '../../../src/core/condition/wear/labels.ts';
import { type FaceZones, type ZoneName, zoneNames } from '../../../src/core/design/index.ts';
import { columnOf, rowOf } from '../../../src/core/geometry/index.ts';
import { quantileOf, type Row, share } from '../table.ts';

/** A place of the subject's face: x, y in the reference's face frame as it was found, and the heights over the ground of both as made, mm. */
export interface MadePoint {
  readonly x: number;
  readonly y: number;
  readonly made: number;
  readonly left: number;
}

/** Height kept of a zone as it was found and as it is. */
export interface ZoneKept extends WearZone {
  readonly truly: number;
}

/** What `heightKept` means in the generator: raised, and ground, in shares of the height that 95 % of the face stay under. */
const raisedShare = 0.25;
const groundShare = 0.05;
const leastPoints = 50;

/**
 * The true height kept of every zone of which one was stated: Σ left / Σ made over the points that stand high on the reference and lie
 * in the zone where it was judged, `left` over the subject's own ground.
 */
export function zonesKept(
  zones: readonly WearZone[],
  found: FaceZones,
  map: WearMap,
  points: readonly MadePoint[],
): ZoneKept[] {
  const typical = quantileOf(
    points.map(({ made }) => made),
    0.95,
  );
  const ground = points.filter(({ made }) => made < groundShare * typical);
  const sunk = ground.reduce((sum, { made, left }) => sum + made - left, 0) / Math.max(1, ground.length);
  const high = points.filter((point) => point.made > raisedShare * typical && judged(map, point));
  return zones.flatMap((each) => {
    const those = high.filter((point) => each.zone === 'whole' || zoneAt(found, point) === each.zone);
    if (Number.isNaN(each.heightKept) || those.length < leastPoints) return [];
    const sum = (of: (point: MadePoint) => number): number => those.reduce((all, point) => all + of(point), 0);
    return [{ ...each, truly: sum(({ left }) => left + sunk) / sum(({ made }) => made) }];
  });
}

/** Whether the height of the cell counts: neither gone nor added, nor hidden. */
function judged({ width, height, pitch, left, top, turned, labels }: WearMap, { x, y }: MadePoint): boolean {
  const column = Math.round(((turned ? -x : x) - left) / pitch);
  const row = Math.round((top - y) / pitch);
  if (column < 0 || row < 0 || column >= width || row >= height) return false;
  const label = labels[row * width + column];
  return label > 0 && !(['lost', 'added', 'cannotJudge'] as const).some((state) => label === wearLabel(state));
}

function zoneAt({ grid, labels }: FaceZones, { x, y }: MadePoint): ZoneName | null {
  const [column, row] = [Math.round(columnOf(grid, x)), Math.round(rowOf(grid, y))];
  if (column < 0 || row < 0 || column >= grid.width || row >= grid.height) return null;
  return zoneNames[labels[row * grid.width + column] - 1] ?? null;
}

export const zonesLine = (list: readonly ZoneKept[]): string =>
  list
    .map(
      ({ zone, heightKept, heightKeptSd, truly }) =>
        `${zone} ${heightKept.toFixed(3)} ± ${heightKeptSd.toFixed(3)}, truly ${truly.toFixed(3)}`,
    )
    .join('; ');

/** How often the truth lies within what is printed, all zones and by name. */
export function keptRows(list: readonly ZoneKept[]): Row[] {
  const error = ({ heightKept, truly }: ZoneKept): number => heightKept - truly;
  const within = (of: readonly ZoneKept[]): string => {
    const inside = of.filter((each) => Math.abs(error(each)) < 1.96 * each.heightKeptSd).length;
    const off = of.map((each) => Math.abs(error(each)));
    const mean = of.reduce((sum, each) => sum + error(each), 0) / Math.max(1, of.length);
    return `${share(inside, of.length)}; median error ${(100 * quantileOf(off, 0.5)).toFixed(1)} points, mean ${(100 * mean).toFixed(1)}; median ± ${(
      100 *
        quantileOf(
          of.map((each) => each.heightKeptSd),
          0.5,
        )
    ).toFixed(1)}`;
  };
  const lower = list.filter(({ state }) => state === 'lower');
  return [
    { what: 'height kept of zones within its own 95 %', floor: '93 to 97 %; 2 points', measured: within(list) },
    ...(['whole', ...zoneNames] as const).map((zone) => ({
      what: `… ${zone}`,
      floor: '',
      measured: within(list.filter((each) => each.zone === zone)),
    })),
    {
      what: 'zones called lower that truly lost 3 % and more',
      floor: '',
      measured: share(lower.filter(({ truly }) => truly < 0.97).length, lower.length),
    },
  ];
}
