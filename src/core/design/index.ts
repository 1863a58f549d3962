export { designFigures } from './figures.ts';
export { type FaceZones, findZones, labelAt, type ZoneName, zoneNames } from './parts.ts';
