export * from './alignStep.ts';
export * from './closestPlace.ts';
export * from './turnedCorrelation.ts';
