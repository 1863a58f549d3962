export * from './closestPlace.ts';
