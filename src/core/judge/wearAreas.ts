import type { ZoneName } from '../compare/index.ts';
import { cellOutlines } from './marks/index.ts';
import type { WearArea, ZoneOutline } from './types.ts';
import { type WearMap, wearStates } from './wearLabels.ts';
import { componentsOf } from './wearParts.ts';

export const areaDefaults = {
  /** Parts smaller than this share of the face are counted but not drawn: they would be lost in one another. */
  leastShare: 0.0012,
};

/** The zones' own ways round, without the whole, which is the face's rim. `zones`: cells of each on the map. */
export const zoneOutlines = (map: WearMap, zones: ReadonlyMap<ZoneName, Uint8Array>): ZoneOutline[] =>
  [...zones]
    .filter(([zone]) => zone !== 'whole')
    .map(([zone, cells]) => ({ zone, outlines: outlinesOf(map, drawnCells(map, cells)) }));

/**
 * Where in each zone the subject is in a state other than sharp: the cells of the zone with that label, in parts of
 * `leastShare` of the face or more. `areaMm2` counts the cells that are drawn.
 */
export function wearAreas(map: WearMap, zones: ReadonlyMap<ZoneName, Uint8Array>, options = areaDefaults): WearArea[] {
  return [...zones]
    .filter(([zone]) => zone !== 'whole')
    .flatMap(([zone, cells]) =>
      wearStates
        .filter((state) => state !== 'sharp')
        .flatMap((state): WearArea[] => {
          const label = wearStates.indexOf(state) + 1;
          const drawn = drawnCells(
            map,
            cells.map((inside, i) => (inside && map.labels[i] === label ? 1 : 0)),
            options,
          );
          if (drawn.length === 0) return [];
          return [{ zone, state, areaMm2: drawn.length * map.pitch ** 2, outlines: outlinesOf(map, drawn) }];
        }),
    );
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
