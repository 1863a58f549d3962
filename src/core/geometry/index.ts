export * from './gaussianFilter.ts';
export * from './heightGrid.ts';
export * from './mesh.ts';
export * from './random.ts';
export * from './similarity.ts';
export * from './statistics.ts';
export * from './vector.ts';
export * from './watch.ts';
