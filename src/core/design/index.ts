export { type FaceZones, findZones, labelAt, type ZoneName, zoneNames } from './parts.ts';
