export * from './alignStep.ts';
export * from './bestShift.ts';
export * from './closestPlace.ts';
export * from './edges.ts';
export * from './gaussian.ts';
export * from './parallelRelief.ts';
export * from './surfacePasses.ts';
export * from './turnedCorrelation.ts';
