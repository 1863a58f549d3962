import type { ZoneName } from '../../design/index.ts';
import { componentsOf, erode } from '../../geometry/index.ts';
import { cellOutlines } from '../marks/index.ts';
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
    .flatMap(([zone, cells]) => {
      const seen = labelsIn(map, cells);
      return wearStates
        .filter((state, k) => state !== 'sharp' && seen[k + 1])
        .flatMap((state): WearArea[] => {
          const labelled = cellsWith(map, cells, wearStates.indexOf(state) + 1);
          const drawn = drawnCells(map, closed(map, labelled, cells, options.closeMm), options);
          if (drawn.length === 0) return [];
          const count = drawn.reduce((sum, i) => sum + labelled[i], 0);
          return [{ zone, state, areaMm2: count * map.pitch ** 2, outlines: outlinesOf(map, drawn) }];
        });
    });
}

/** 1 for each label that a cell of the zone has. */
function labelsIn({ labels }: WearMap, zone: Uint8Array): Uint8Array {
  const seen = new Uint8Array(wearStates.length + 1);
  for (let i = 0; i < zone.length; i++) if (zone[i]) seen[labels[i]] = 1;
  return seen;
}

function cellsWith({ labels }: WearMap, zone: Uint8Array, label: number): Uint8Array {
  const cells = new Uint8Array(zone.length);
  for (let i = 0; i < cells.length; i++) if (zone[i] && labels[i] === label) cells[i] = 1;
  return cells;
}

/** Morphological closing, kept within the zone. */
function closed({ width, pitch }: WearMap, cells: Uint8Array, zone: Uint8Array, closeMm: number): Uint8Array {
  const reach = Math.max(1, Math.round(closeMm / pitch));
  const not = (all: Uint8Array): Uint8Array => all.map((one) => 1 - one);
  const grown = not(erode(not(cells), width, reach));
  return erode(grown, width, reach).map((one, i) => (one | cells[i]) & zone[i]);
}

function drawnCells(map: WearMap, cells: Uint8Array, { leastShare } = areaDefaults): number[] {
  const least = leastShare * countAbove(map.labels, 0);
  const drawn: number[] = [];
  for (const part of componentsOf(cells, map.width)) if (part.length >= least) append(drawn, part);
  return drawn;
}

function countAbove(values: Uint8Array, low: number): number {
  let count = 0;
  for (let i = 0; i < values.length; i++) if (values[i] > low) count++;
  return count;
}

function append(list: number[], more: Int32Array): void {
  for (let i = 0; i < more.length; i++) list.push(more[i]);
}

/** In the reference's face frame: an engraved one lies turned over on the map. */
const outlinesOf = (map: WearMap, cells: readonly number[]): Float64Array[] =>
  cellOutlines(map, cells).map((way) => (map.turned ? way.map((value, k) => (k % 2 === 0 ? -value : value)) : way));
