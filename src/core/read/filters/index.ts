export * from './applyLook.ts';
export * from './curvature.ts';
export * from './edgeAware.ts';
export * from './exaggeratedShading.ts';
export * from './look.ts';
export * from './principalShading.ts';
export * from './standardLooks.ts';
export * from './tone.ts';
