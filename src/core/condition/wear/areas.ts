import type { ZoneName } from '../../design/index.ts';
import { erode } from '../../geometry/index.ts';
import { cellOutlines } from '../marks/index.ts';
import { componentsOf } from '../relief/parts.ts';
import type { WearArea, ZoneOutline } from '../types.ts';
import { type WearMap, wearStates } from './labels.ts';

export const areaDefaults = {
  /** Parts smaller than this share of the face are counted but not drawn: they would be lost in one another. */
  leastShare: 0.0012,
  /** Gaps up to twice this wide, mm, are drawn over: letters rubbed along a line are one part and not a row of crumbs. */
  closeMm: 0.6,
};

/** The zones' own ways round, without the whole, which is the face's rim. `zones`: cells of each on the map. */
export const zoneOutlines = (map: WearMap, zones: ReadonlyMap<ZoneName, Uint8Array>): ZoneOutline[] =>
  [...zones]
    .filter(([zone]) => zone !== 'whole')
    .map(([zone, cells]) => ({ zone, outlines: outlinesOf(map, drawnCells(map, cells)) }));

/**
 * Where in each zone the subject is in a state other than sharp: the cells of the zone with that label, in parts of
 * `leastShare` of the face or more, drawn over gaps of `closeMm`. `areaMm2` counts the labelled cells of the parts that are drawn.
 */
export function wearAreas(map: WearMap, zones: ReadonlyMap<ZoneName, Uint8Array>, options = areaDefaults): WearArea[] {
  return [...zones]
    .filter(([zone]) => zone !== 'whole')
    .flatMap(([zone, cells]) =>
      wearStates
        .filter((state) => state !== 'sharp')
        .flatMap((state): WearArea[] => {
          const label = wearStates.indexOf(state) + 1;
          const labelled = cells.map((inside, i) => (inside && map.labels[i] === label ? 1 : 0));
          if (!labelled.includes(1)) return [];
          const drawn = drawnCells(map, closed(map, labelled, cells, options.closeMm), options);
          if (drawn.length === 0) return [];
          const count = drawn.reduce((sum, i) => sum + labelled[i], 0);
          return [{ zone, state, areaMm2: count * map.pitch ** 2, outlines: outlinesOf(map, drawn) }];
        }),
    );
}

/** Morphological closing, kept within the zone. */
function closed({ width, pitch }: WearMap, cells: Uint8Array, zone: Uint8Array, closeMm: number): Uint8Array {
  const reach = Math.max(1, Math.round(closeMm / pitch));
  const not = (all: Uint8Array): Uint8Array => all.map((one) => 1 - one);
  const grown = not(erode(not(cells), width, reach));
  return erode(grown, width, reach).map((one, i) => (one | cells[i]) & zone[i]);
}

function drawnCells(map: WearMap, cells: Uint8Array, { leastShare } = areaDefaults): number[] {
  let face = 0;
  for (const label of map.labels) if (label > 0) face++;
  return componentsOf(cells, map.width)
    .filter((part) => part.length >= leastShare * face)
    .flatMap((part) => [...part]);
}

/** In the reference's face frame: an engraved one lies turned over on the map. */
const outlinesOf = (map: WearMap, cells: readonly number[]): Float64Array[] =>
  cellOutlines(map, cells).map((way) => (map.turned ? way.map((value, k) => (k % 2 === 0 ? -value : value)) : way));
