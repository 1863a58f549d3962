export * from './acrossStrokes.ts';
export * from './castShadow.ts';
export * from './hillshade.ts';
export * from './lamp.ts';
export * from './light.ts';
export * from './normals.ts';
export * from './skyView.ts';
export * from './view.ts';
