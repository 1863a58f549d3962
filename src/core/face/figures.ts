import { candidateDefaults } from './candidate.ts';
import { directionDefaults } from './directions.ts';
import { findDefaults } from './find.ts';
import { fineDefaults } from './fine.ts';
import { imageDefaults } from './image.ts';
import { matrixEdgeDefaults } from './matrixEdge.ts';
import { proxyDefaults } from './proxy.ts';
import { reliefDefaults } from './relief.ts';
import { rimDefaults } from './rim.ts';
import { senseDefaults } from './sense.ts';
import { tableDefaults } from './table.ts';
import { wallDefaults } from './wall.ts';
import { wallCourseDefaults } from './wallCourse.ts';

/** The named figures and thresholds that a face is found and levelled by, each by the file it stands in. */
export const faceFigures = {
  candidate: candidateDefaults,
  direction: directionDefaults,
  find: findDefaults,
  fine: fineDefaults,
  image: imageDefaults,
  matrixEdge: matrixEdgeDefaults,
  proxy: proxyDefaults,
  relief: reliefDefaults,
  rim: rimDefaults,
  sense: senseDefaults,
  table: tableDefaults,
  wall: wallDefaults,
  wallCourse: wallCourseDefaults,
} as const;
